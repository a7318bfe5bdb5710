package merge_test

import (
	"fmt"

	"hobside/internal/merge"
)

// Two people edited one card apart: one changed a line, the other added one.
func ExampleLines() {
	base := "- 3 kg bones\n- 5 L water\n\n1. Roast.\n"
	ours := "- 4 kg bones\n- 5 L water\n\n1. Roast.\n"
	theirs := "- 3 kg bones\n- 5 L water\n\n1. Roast.\n2. Simmer.\n"
	merged, ok := merge.Lines(&base, ours, theirs)
	fmt.Print(merged, ok)
	// Output:
	// - 4 kg bones
	// - 5 L water
	//
	// 1. Roast.
	// 2. Simmer.
	// true
}

// Both changed the same line: people must choose.
func ExampleLines_clash() {
	base := "- 3 kg bones\n- 5 L water\n"
	_, ok := merge.Lines(&base, "- 4 kg bones\n- 5 L water\n", "- 2 kg bones\n- 5 L water\n")
	fmt.Println(ok)
	// Output:
	// false
}
