package web

// Limited, Place and Caught are internal functions that tests call directly.
var (
	Limited = limited
	Place   = place
	Caught  = caught
)
