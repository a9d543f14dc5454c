// Package reference asks independent programs, which tests hold this project's own
// reckoning against. They are written in Python, for its general-purpose libraries.
package reference

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"sync"
)

// A Library is what a reference program stands on.
type Library struct {
	name, pack, module string
	python             func() string
}

// The libraries that the project's own set-up installs.
var (
	SciPy    = library("SciPy", "python3-scipy", "scipy.optimize, scipy.integrate")
	Shapely  = library("Shapely", "python3-shapely", "shapely.geometry")
	OpenPyXL = library("openpyxl", "python3-openpyxl", "openpyxl")
	Ezdxf    = library("ezdxf", "python3-ezdxf", "ezdxf")
)

// library is one with an interpreter that has it, "" for none. Debian's libraries go
// with its own interpreter, whatever python3 comes first in PATH.
func library(name, pack, module string) *Library {
	return &Library{name, pack, module, sync.OnceValue(func() string {
		for _, python := range []string{"/usr/bin/python3", "python3"} {
			if exec.Command(python, "-c", "import "+module).Run() == nil {
				return python
			}
		}
		return ""
	})}
}

// Ask hands asked as JSON to the program in a file, with args, and reads what it writes
// into answer. It fails where no interpreter has the library, and where the program does.
func (l *Library) Ask(program string, asked, answer any, args ...string) error {
	python := l.python()
	if python == "" {
		return fmt.Errorf("no Python with %s found, which the reference runs need; install it (Debian: apt-get install %s) or pass -short to leave them out", l.name, l.pack)
	}
	in, err := json.Marshal(asked)
	if err != nil {
		return err
	}
	cmd := exec.Command(python, append([]string{program}, args...)...)
	cmd.Env = append(os.Environ(), "PYTHONDONTWRITEBYTECODE=1") // one program imports another
	cmd.Stdin, cmd.Stderr = bytes.NewReader(in), os.Stderr
	text, err := cmd.Output()
	if err == nil {
		err = json.Unmarshal(text, answer)
	}
	if err != nil {
		return fmt.Errorf("%s: %w", program, err)
	}
	return nil
}
