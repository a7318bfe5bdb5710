// Package rcpsp solves the resource-constrained project scheduling problem with
// minimum and maximum time lags (RCPSP/max). Resources have a capacity that can
// change over time (a calendar), and can be in one of several states (an oven at
// a temperature) that all activities using it at one moment have to share.
//
// Describe a [Problem] and call [Solve] for a [Schedule] with a short makespan.
// [ReduceCost] then moves activities to cheaper start times without making the
// schedule longer. [Check] verifies a schedule; it shares no code with the
// solver. All times are whole numbers in a unit of the caller's choice.
//
// The package is deterministic: it counts its effort in generated schedules, and
// has no clock, no files, no goroutines and its own random numbers. The same
// problem, budget and seed give the same schedule on every machine. It imports
// only pure parts of the standard library, because it also runs on the phone.
//
// # How Solve works
//
//  1. compile: time windows by longest paths of time lags, disjunctive pairs, an
//     overload check by energetic reasoning (temporal.go, disjunctive.go, energy.go).
//  2. Priority rules give activity lists, which the serial schedule generation
//     scheme turns into schedules (priority.go, serial.go, unschedule.go). Large
//     problems with maximum time lags keep chains together (chains.go).
//  3. A genetic algorithm on two populations, of left-justified and of
//     right-justified schedules, with forward-backward improvement (genetic.go).
//  4. An exhaustive search with nogood learning: time-table propagation, conflict
//     analysis and branching by variable activity (search.go, conflict.go). If it
//     ends within the budget, the result is proven.
//
// # References
//
// Each entry says what was read. "From memory" means that the text was not at
// hand when this was written.
//
//   - R. Kolisch, S. Hartmann: Heuristic algorithms for the resource-constrained
//     project scheduling problem, in J. Weglarz (ed.), Project Scheduling, Kluwer
//     1999, 147-178. Opening section read in a web copy (problem and terms); the
//     serial scheme, activity lists and priority rules from memory.
//   - V. Valls, F. Ballestin, S. Quintanilla: Justification and RCPSP: a technique
//     that pays, European Journal of Operational Research 165 (2005) 375-386.
//     Abstract read.
//   - D. Debels, M. Vanhoucke: a bi-population genetic algorithm for the RCPSP,
//     about 2005. From memory.
//   - S. Hartmann: A competitive genetic algorithm for resource-constrained project
//     scheduling, 1998. Title read in a public implementation's README; the
//     two-point crossover from memory.
//   - B. Franck, K. Neumann, C. Schwindt: Truncated branch-and-bound,
//     schedule-construction, and schedule-improvement procedures for
//     resource-constrained project scheduling, OR Spektrum 23 (2001). From memory.
//   - A. Schutt, T. Feydy, P. Stuckey, M. Wallace: Solving the Resource Constrained
//     Project Scheduling Problem with Generalized Precedences by Lazy Clause
//     Generation, arXiv:1009.0347. Abstract read.
//   - A. Schutt, T. Feydy, P. Stuckey, M. Wallace: Explaining the cumulative
//     propagator, Constraints 16 (2011). From memory; the three kinds of
//     explanation were read in the source comments of the Pumpkin solver.
//   - A. Lahrichi: Scheduling: the notions of hump, compulsory parts and their use
//     in cumulative problems, C. R. Acad. Sci. Paris 294 (1982) 209-211. Citation
//     read; the definition of a compulsory (mandatory) part was read in Pumpkin.
//   - P. Baptiste, C. Le Pape, W. Nuijten: Satisfiability tests and time-bound
//     adjustments for cumulative scheduling problems. Abstract read.
//   - The VSIDS branching heuristic: documentation of the Varisat solver, read.
//   - S. Vigna: xorshift64*. Paper from memory; shifts and multiplier compared with
//     public implementations. SplitMix64: pseudocode on Rosetta Code, read.
package rcpsp
