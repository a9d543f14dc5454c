package server

// needs are the words for what routes need, as the description of the API has them.
var needs = map[need]string{anyone: "anyone", sees: "sees", enters: "enters", own: "own", keeps: "keeps"}

// Needs are the patterns of all routes in their order, and what each needs.
func (s *Server) Needs() (patterns []string, of map[string]string) {
	of = map[string]string{}
	for _, rt := range s.list() {
		patterns = append(patterns, rt.pattern)
		of[rt.pattern] = needs[rt.need]
	}
	return patterns, of
}
