package packet

import (
	"io"
	"testing"
)

// One packet, of an opening that has nearly every paper, its plan made before.
func BenchmarkPacket(b *testing.B) {
	o := made(b, "108")
	for b.Loop() {
		if _, err := Write(io.Discard, o, usual); err != nil {
			b.Fatal(err)
		}
	}
}
