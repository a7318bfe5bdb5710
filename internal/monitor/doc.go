// Package monitor watches what can hurt someone while a dinner is cooked and
// kept: readings of temperatures and weights set against limits, forecasts under
// way, the temperature log, labels, and the cautions at each step.
//
// Enter by a [Reader], which is a followed dinner at a moment as one cook reads
// it: [Reader.Watch] for one step, [Reader.Log] for the whole dinner,
// [Reader.Labels] for what is put away. [Cautions] needs a card alone.
//
// The limits, their sources and the physics are package safety's. What is said
// here compares readings with published limits; it never judges food, and it
// says where nothing was compared. The package has no clock: the caller says what
// time it is.
package monitor
