package web

// Limited, Place, Caught and Told are internal functions that tests call directly.
var (
	Limited = limited
	Place   = place
	Caught  = caught
	Told    = told
)
