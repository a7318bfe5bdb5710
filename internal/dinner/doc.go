// Package dinner is one dinner: the events that happened, the state they add up
// to, and everything that follows from that state.
//
// Everything that happens is an [Event]; [Fold] adds events up to a [State]. The
// fold gives the same state whatever order events arrive in, however often, on the
// server and on the phone. [Next] makes the stamps that put events in order, so
// that no device's clock has to be right. [Validate] checks events from outside.
//
// [Follow] follows a dinner: [Live.Take] adds events, [Live.Worked] returns what
// follows from them. Amounts, batches and consequences are worked out once for a
// state and shared by every screen; [Live.Plan] makes the plan from the same.
//
// The package holds no clock: callers say what time it is.
package dinner
