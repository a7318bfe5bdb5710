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
	fmt.Print(merge.Lines(&base, ours, theirs))
	// Output:
	// - 4 kg bones
	// - 5 L water
	//
	// 1. Roast.
	// 2. Simmer.
}

// Both changed the same line: both versions stay, for people to choose from.
func ExampleLines_clash() {
	base := "- 3 kg bones\n- 5 L water\n"
	merged := merge.Lines(&base, "- 4 kg bones\n- 5 L water\n", "- 2 kg bones\n- 5 L water\n")
	fmt.Print(merged)
	fmt.Println(merge.Marked(merged))
	// Output:
	// > **Two versions of these lines.** The first:
	// - 4 kg bones
	// > **Two versions of these lines.** The second:
	// - 2 kg bones
	// > **Two versions of these lines.** So far. Keep what is right; delete these three lines.
	// - 5 L water
	// true
}
