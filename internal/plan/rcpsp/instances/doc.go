// Package instances reads the public test instances of project scheduling into
// problems for [hobside/internal/plan/rcpsp]: [SM] the single-mode files of
// PSPLIB, [Sch] the files with minimum and maximum time lags of ProGen/max.
//
// The readers take bytes, not files, and trust nothing: whatever comes in, they
// give a valid problem or an error with the line it is about.
package instances
