package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// The Go programs that check the code, each at the one version that everybody uses.
const (
	staticcheckModule = "honnef.co/go/tools/cmd/staticcheck@v0.8.2"
	deadcodeModule    = "golang.org/x/tools/cmd/deadcode@v0.52.0"
)

// forPhone are the variables that make Go compile for the phone.
var forPhone = []string{"GOOS=js", "GOARCH=wasm"}

// installTool builds a Go program of another module for this machine and returns
// the path of it.
func installTool(ctx context.Context, out io.Writer, module string) (string, error) {
	folder, err := filepath.Abs("bin/tools")
	if err != nil {
		return "", err
	}
	c := command(ctx, out, "go", "install", module)
	c.Env = append(os.Environ(), "GOBIN="+folder)
	if err := c.Run(); err != nil {
		return "", fmt.Errorf("go install %s: %w", module, err)
	}
	path, _, _ := strings.Cut(module, "@")
	return filepath.Join(folder, filepath.Base(path)), nil
}

// staticcheck looks for mistakes and for names that nothing uses: in all
// packages with their tests, and in the engine as it is compiled for the phone.
func staticcheck(ctx context.Context, out io.Writer) error {
	tool, err := installTool(ctx, out, staticcheckModule)
	if err != nil {
		return err
	}
	if err := command(ctx, out, tool, "-tags", "browser", "./...").Run(); err != nil {
		return err
	}
	c := command(ctx, out, tool, "./cmd/engine")
	c.Env = append(os.Environ(), forPhone...)
	return c.Run()
}

// unreached names functions that no program of ours calls, each with the reason
// why it stays.
var unreached = map[string]string{
	"hobside/internal/dinner.Kinds": "the sync's tests ask whether each kind of event has a role",
}

// deadCode finds functions that neither the server, the command line, dev nor
// the phone's engine can reach. What only tests call counts as dead.
func deadCode(ctx context.Context, out io.Writer) error {
	tool, err := installTool(ctx, out, deadcodeModule)
	if err != nil {
		return err
	}
	var all []*reach
	for _, program := range []struct {
		env      []string
		packages []string
	}{
		{nil, []string{"./cmd/hobside", "./cmd/dev"}},
		{forPhone, []string{"./cmd/engine"}},
	} {
		r, err := reachOf(ctx, out, tool, program.env, program.packages)
		if err != nil {
			return err
		}
		all = append(all, r)
	}
	dead := deadEverywhere(all)
	if len(dead) == 0 {
		return nil
	}
	return fmt.Errorf("no program calls these functions; remove them, or move them to the tests that use them:\n  %s", strings.Join(dead, "\n  "))
}

// reach holds what some programs are made of: the packages, and the functions in
// them that are never called, each as "file:line: name".
type reach struct {
	packages map[string]bool
	dead     map[string]string // the package of each function
}

func reachOf(ctx context.Context, out io.Writer, tool string, env, packages []string) (*reach, error) {
	r := &reach{packages: map[string]bool{}, dead: map[string]string{}}
	list, err := outputOf(ctx, out, env, "go", append([]string{"list", "-deps"}, packages...)...)
	if err != nil {
		return nil, err
	}
	for _, name := range strings.Fields(string(list)) {
		r.packages[name] = true
	}
	report, err := outputOf(ctx, out, env, tool, append([]string{"-json"}, packages...)...)
	if err != nil {
		return nil, err
	}
	return r, r.read(report)
}

// read takes in deadcode's report.
func (r *reach) read(report []byte) error {
	var found []struct {
		Path  string
		Funcs []struct {
			Name     string
			Position struct {
				File string
				Line int
			}
			Generated bool
		}
	}
	if err := json.Unmarshal(report, &found); err != nil {
		return fmt.Errorf("deadcode's report: %w", err)
	}
	for _, p := range found {
		for _, f := range p.Funcs {
			if unreached[p.Path+"."+f.Name] == "" && !f.Generated {
				r.dead[fmt.Sprintf("%s:%d: %s", filepath.ToSlash(f.Position.File), f.Position.Line, f.Name)] = p.Path
			}
		}
	}
	return nil
}

// deadEverywhere lists the functions that are dead in each set of programs that
// has their package, sorted.
func deadEverywhere(all []*reach) []string {
	var dead []string
	for _, r := range all {
		for name, path := range r.dead {
			reached := slices.ContainsFunc(all, func(other *reach) bool {
				return other.packages[path] && other.dead[name] == ""
			})
			if !reached && !slices.Contains(dead, name) {
				dead = append(dead, name)
			}
		}
	}
	slices.Sort(dead)
	return dead
}

// outputOf runs a program and returns what it prints; its complaints go to out.
func outputOf(ctx context.Context, out io.Writer, env []string, name string, args ...string) ([]byte, error) {
	var printed bytes.Buffer
	c := command(ctx, out, name, args...)
	c.Stdout = &printed
	c.Env = append(os.Environ(), env...)
	if err := c.Run(); err != nil {
		return nil, fmt.Errorf("%s %s: %w", filepath.Base(name), strings.Join(args, " "), err)
	}
	return printed.Bytes(), nil
}
