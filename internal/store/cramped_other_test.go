//go:build !unix

package store_test

const crampedEnv = "HOBSIDE_STORE_CRAMPED"

func cramped(string) {}
