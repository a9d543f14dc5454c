package judge_test

import (
	"fmt"

	"swingwright/judge"
)

// A leaf has to take at least 3 s to close; a stopwatch said 3.10 s, good to
// 0.10 s, of which 0.02 s is the mark on the floor.
func ExampleDecide() {
	var policy judge.Policy // 5 % risk of a wrong call
	margin := judge.Margin(judge.AtLeast, 3.10, 3.00)
	fmt.Println(judge.Decide(margin, 0.10, policy))
	fmt.Printf("meets from %.2f s\n", judge.AcceptanceLimit(judge.AtLeast, 3.00, 0.10, policy))
	n, ok := judge.Repeats(margin, 0.10, 0.02, policy)
	fmt.Println(n, ok)
	// Output:
	// too close to call
	// meets from 3.16 s
	// 3 true
}

func ExampleConformance() {
	// JCGM 106:2012, 7.4.
	fmt.Printf("%.4f\n", judge.Conformance(13.6, 1.8, 12.5, 16.3))
	// Output:
	// 0.6626
}
