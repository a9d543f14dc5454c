package quantity

import "fmt"

// Counted is a number of things in words: "1 packet", "3 packets", "0 packets".
func Counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
