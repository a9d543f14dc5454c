package server

// Routes are the patterns of all routes, and whether each needs nothing, a sign-in, or
// somebody who may change something.
func (s *Server) Routes() (patterns []string, open, enter map[string]bool) {
	open, enter = map[string]bool{}, map[string]bool{}
	for _, rt := range s.list() {
		patterns = append(patterns, rt.pattern)
		open[rt.pattern], enter[rt.pattern] = rt.need == anyone, rt.need == enters
	}
	return patterns, open, enter
}

// MostLimited is how many are told apart by a limit.
const MostLimited = mostLimited
