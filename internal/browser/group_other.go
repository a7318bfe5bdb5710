//go:build !linux

package browser

import "os/exec"

// group does nothing: here a program alone is ended, and browsers end with the program that started them.
func group(*exec.Cmd) {}

// killGroup ends a program.
func killGroup(c *exec.Cmd) error { return c.Process.Kill() }
