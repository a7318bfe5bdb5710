package web

// Limited and Place are internal functions that tests call directly.
var (
	Limited = limited
	Place   = place
)
