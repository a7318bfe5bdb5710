// Package plan works a dinner back from its serving time: when each step
// starts, who does it, what it runs on, and what stands in the way where it
// cannot be done.
//
// Enter by [Make], which gives a [Plan] or a [*Blocked], and by
// [Plan.Chances], which says how likely each course is on time.
//
// A dinner becomes a scheduling problem in three moves. project.go turns every
// step of every batch into activities (hands-on, unattended, loads) with lags
// between them: what waits for what, and how long it may wait (keep.go).
// hours.go lays the kitchen's hours on one axis of real minutes, counted from
// the serving time, and equipment.go counts rings, shelves and cooks. mirror.go
// turns the axis round, for plan/rcpsp builds schedules from zero on and a
// kitchen works back from service; aims.go says what a start is worth. Before
// all that apart.go looks whether a card must be made more than once, for want
// of keeping; callers that show amounts ask it too ([Apart]).
//
// The package may import demand, menu, card, safety and quantity and its own
// solver.
// It has no clock: callers say what time it is and where the clocks change.
package plan
