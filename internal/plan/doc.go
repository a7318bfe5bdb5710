// Package plan works a dinner back from its serving time: when each step starts,
// who does it, on which equipment, and why there is no plan where there is none.
//
// Start with [Make], which returns a [Plan] or a [*Blocked]. [Plan.Chances] says
// how likely each course is on time, [Input.Free] which changes would make a
// blocked dinner possible; [Input.With] carries one out.
//
// A dinner becomes a scheduling problem in these steps. apart.go finds the cards
// that must be made more than once because they do not keep; callers that show
// amounts need it too ([Apart]). project.go turns every step of every batch into
// activities (hands-on, unattended, by load) with lags between them: what waits for
// what, and how long it may wait (keep.go). hours.go puts the kitchen's hours on one
// axis of real minutes, counted from the serving time, and equipment.go counts
// rings, shelves and cooks. mirror.go reverses the axis, because plan/rcpsp builds
// schedules forward from zero and a kitchen works back from service. aims.go gives
// every start its cost. What the solver finds keeps the rules; arrange.go has
// plan/rota make it a plan that cooks can follow, and cooks.go shares out the work.
//
// The package may import demand, menu, card, safety and quantity and its own
// solver.
// It has no clock: callers pass the time and the changes of the clocks.
package plan
