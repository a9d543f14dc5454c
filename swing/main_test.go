package swing

import (
	"flag"
	"os"
	"testing"
)

// The properties draw the same random models in every run, unless a seed is
// asked for: go test -rapid.seed=N.
func TestMain(m *testing.M) {
	flag.Parse()
	if seed := flag.Lookup("rapid.seed"); seed.Value.String() == "0" {
		if err := flag.Set("rapid.seed", "1"); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}
