// Command press packs a file with brotli (RFC 7932), which every browser of today
// unpacks: press IN OUT.
package main

import (
	"fmt"
	"os"

	"github.com/andybalholm/brotli"
)

// quality is of 0 to 11: at 11 the engine takes half a minute and comes to a seventh less
// than at 6, which takes two seconds.
const quality = 11

func main() {
	if err := press(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "press:", err)
		os.Exit(1)
	}
}

func press(args []string) error {
	if len(args) != 2 {
		return fmt.Errorf("give the file to pack and the file to write, not %q", args)
	}
	data, err := os.ReadFile(args[0])
	if err != nil {
		return err
	}
	out, err := os.Create(args[1])
	if err != nil {
		return err
	}
	w := brotli.NewWriterOptions(out, brotli.WriterOptions{Quality: quality, LGWin: 24})
	if _, err := w.Write(data); err != nil {
		return err
	}
	if err := w.Close(); err != nil {
		return err
	}
	return out.Close()
}
