package browser

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"regexp"
	"sync"
)

// process is a program that a test started, with those that it started itself, and what they printed.
type process struct {
	cmd   *exec.Cmd
	ended chan struct{} // closed when the program has ended

	mu      sync.Mutex
	printed []byte
	more    chan struct{} // closed and replaced when something was printed
}

// launch starts a program with variables added to its environment.
func launch(env []string, name string, args ...string) (*process, error) {
	p := &process{cmd: exec.Command(name, args...), ended: make(chan struct{}), more: make(chan struct{})}
	p.cmd.Env = append(os.Environ(), env...)
	p.cmd.Stdout, p.cmd.Stderr = p, p
	group(p.cmd)
	if err := p.cmd.Start(); err != nil {
		return nil, err
	}
	go func() {
		_ = p.cmd.Wait() // the exit code means nothing: tests end programs by force
		close(p.ended)
	}()
	return p, nil
}

// Write takes what the program prints.
func (p *process) Write(b []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.printed = append(p.printed, b...)
	close(p.more)
	p.more = make(chan struct{})
	return len(b), nil
}

// output is what the program printed so far.
func (p *process) output() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return string(p.printed)
}

// says waits until the program prints something that matches and returns the first group of it.
func (p *process) says(ctx context.Context, pattern string) (string, error) {
	re := regexp.MustCompile(pattern)
	for {
		p.mu.Lock()
		found, more := re.FindSubmatch(p.printed), p.more
		p.mu.Unlock()
		if found != nil {
			return string(found[1]), nil
		}
		select {
		case <-more:
		case <-p.ended:
			return "", fmt.Errorf("%s ended and did not print %s; it printed:\n%s", p.cmd.Path, pattern, p.output())
		case <-ctx.Done():
			return "", fmt.Errorf("%s did not print %s: %w; it printed:\n%s", p.cmd.Path, pattern, ctx.Err(), p.output())
		}
	}
}

// wait waits until the program has ended by itself.
func (p *process) wait(ctx context.Context) error {
	select {
	case <-p.ended:
		return nil
	case <-ctx.Done():
		return fmt.Errorf("%s does not end: %w", p.cmd.Path, ctx.Err())
	}
}

// kill ends the program and all that it started.
func (p *process) kill() error {
	err := killGroup(p.cmd)
	<-p.ended
	if errors.Is(err, os.ErrProcessDone) {
		return nil
	}
	return err
}
