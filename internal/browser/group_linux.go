package browser

import (
	"errors"
	"os"
	"os/exec"
	"syscall"
)

// group lets a program and all that it starts be ended together.
func group(c *exec.Cmd) {
	// A test that is cut short leaves nothing running.
	c.SysProcAttr = &syscall.SysProcAttr{Setpgid: true, Pdeathsig: syscall.SIGKILL}
}

// killGroup ends a program and all that it started.
func killGroup(c *exec.Cmd) error {
	err := syscall.Kill(-c.Process.Pid, syscall.SIGKILL)
	if errors.Is(err, syscall.ESRCH) {
		return os.ErrProcessDone
	}
	return err
}
