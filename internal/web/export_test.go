package web

// Limited is how the network's listener is bounded, for tests.
var Limited = limited

// Place is what a phone says it has, for tests.
var Place = place
