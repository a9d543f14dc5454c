package server

import (
	_ "embed"
	"net/http"
)

// openapi describes what programs can ask (OpenAPI 3.1). A test holds it against the
// routes and against answers.
//
//go:embed openapi.json
var openapi []byte

func (s *Server) described(w http.ResponseWriter, _ *http.Request) {
	w.Header().Set("Content-Type", "application/json")
	w.Write(openapi)
}
