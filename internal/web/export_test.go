package web

// Limited is how the network's listener is bounded, for tests.
var Limited = limited
