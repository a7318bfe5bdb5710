// Package rcpsp schedules activities that wait for one another and share
// resources: the resource-constrained project scheduling problem with minimum
// and maximum time lags, resources with calendars, and resources that are set to
// a state (an oven to a temperature) for all who use them at one time.
//
// Describe a [Problem] and call [Solve]; have the answer looked over by [Check],
// which is written apart from the solver. [ReduceCost] then moves activities to
// where they cost least without making the whole longer.
//
// It knows nothing of kitchens. It counts its effort in schedules generated and
// has no clock, no file, no goroutine and its own generator of random numbers:
// the same problem, budget and seed give the same schedule on every machine.
// It imports only pure parts of the standard library; keep it that way, for it
// runs on the phone too.
package rcpsp
