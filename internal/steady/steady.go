// Package steady makes property tests draw the same cases in every run: a test
// package imports it for its effect. Other cases come with
//
//	go test ./swing -rapid.seed=7
package steady

import (
	"flag"

	_ "pgregory.net/rapid" // its flags have to be there first
)

// seed is where the draws begin unless a flag says otherwise.
const seed = "1"

func init() {
	if err := flag.Set("rapid.seed", seed); err != nil {
		panic(err)
	}
}
