package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"runtime"
	"strings"
	"sync"
	"time"
)

// A part is one check of `dev test`. It writes what it finds to out.
type part struct {
	name  string
	after []string // the parts that must have passed before
	live  bool     // its words are shown as they come, not when it is done
	do    func(ctx context.Context, out io.Writer) error
}

// runParts runs the parts, as many at a time as there are cores, in the order
// given where after allows it. It prints what each wrote and how long it took.
// After a failure no other part begins; the error is of the part that failed first.
func runParts(ctx context.Context, out io.Writer, parts []part) error {
	r := partRun{out: out, done: map[string]bool{}, begun: make([]bool, len(parts))}
	r.changed.L = &r.mu
	var workers sync.WaitGroup
	for range max(1, runtime.NumCPU()) {
		workers.Go(func() {
			for i := r.next(parts); i >= 0; i = r.next(parts) {
				r.run(ctx, parts[i])
			}
		})
	}
	workers.Wait()
	return r.failed
}

type partRun struct {
	out     io.Writer
	mu      sync.Mutex
	changed sync.Cond // a part has ended
	begun   []bool
	done    map[string]bool // passed
	running int
	failed  error
}

// next waits for a part that may begin and returns its index, -1 when there is
// no more to do.
func (r *partRun) next(parts []part) int {
	r.mu.Lock()
	defer r.mu.Unlock()
	for {
		if r.failed != nil {
			return -1
		}
		left := false
		for i, p := range parts {
			if r.begun[i] {
				continue
			}
			left = true
			if r.ready(p) {
				r.begun[i] = true
				r.running++
				return i
			}
		}
		if !left {
			return -1
		}
		if r.running == 0 {
			r.failed = fmt.Errorf("no part can begin: each of them waits for another")
			return -1
		}
		r.changed.Wait()
	}
}

func (r *partRun) ready(p part) bool {
	for _, name := range p.after {
		if !r.done[name] {
			return false
		}
	}
	return true
}

// run runs one part and prints its words and its time.
func (r *partRun) run(ctx context.Context, p part) {
	var words bytes.Buffer
	began := time.Now()
	var out io.Writer = &words
	if p.live {
		out = r.out
	}
	err := p.do(ctx, out)
	r.mu.Lock()
	defer r.mu.Unlock()
	r.out.Write(words.Bytes())
	verdict := "passed"
	if err != nil {
		verdict = "FAILED"
	}
	fmt.Fprintf(r.out, "dev: %-14s %6.1f s  %s\n", p.name, time.Since(began).Seconds(), verdict)
	r.running--
	r.done[p.name] = err == nil
	if err != nil && r.failed == nil {
		r.failed = fmt.Errorf("%s: %w", strings.TrimSpace(p.name), err)
	}
	r.changed.Broadcast()
}
