package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// A program is one that the tests call and that Go doesn't bring.
type program struct {
	names  []string // any one of these will do
	debian string   // the Debian package
	use    string   // what the tests need it for
	engine string   // the browser engine it belongs to: tests in it are left out where the program is missing
}

// programs lists every outside program that a test uses. Nothing else is asked for, at no later time.
var programs = []program{
	{names: []string{"chromium", "chromium-browser", "google-chrome", "chrome"}, debian: "chromium", use: "the browser tests"},
	{names: []string{"pdftotext"}, debian: "poppler-utils", use: "reading the printed pages"},
	{names: []string{"node"}, debian: "nodejs", use: "the page's formatter, its types, and tests of its sync"},
	{names: []string{"npm"}, debian: "npm", use: "fetching the packages of npmPackages"},
	{names: []string{"WebKitWebDriver"}, debian: "webkit2gtk-driver", use: "the browser tests in WebKit", engine: "webkit"},
	{names: []string{"Xvfb"}, debian: "xvfb", use: "a screen for WebKit where there is none", engine: "webkit"},
	{names: []string{"firefox-esr", "firefox"}, debian: "firefox-esr", use: "the browser tests in Firefox", engine: "firefox"},
}

// enginesVariable tells the browser tests which engines they must run in, with
// commas between: a test fails when one of these can't be started.
const enginesVariable = "HOBSIDE_ENGINES"

// engines are the browser engines of the tests. The first is never left out.
var engines = []string{"chromium", "webkit", "firefox"}

// needPrograms makes sure that programs are there before anything else is done.
// On Debian, as root, it installs what is missing; elsewhere it returns an error
// that names what is missing. It returns the engines that can be tested.
func needPrograms(ctx context.Context, out io.Writer) ([]string, error) {
	missing := missingPrograms()
	if len(missing) > 0 && onDebian() && os.Geteuid() == 0 {
		if err := aptInstall(ctx, out, missing); err != nil {
			return nil, err
		}
		missing = missingPrograms()
	}
	return testable(out, missing)
}

// testable returns the engines that none of the missing programs belongs to,
// and says which are left out. It fails when the tests need a missing program
// whatever the engine.
func testable(out io.Writer, missing []program) ([]string, error) {
	var needed []string
	left := slices.Clone(engines)
	for _, p := range missing {
		if p.engine == "" {
			needed = append(needed, fmt.Sprintf("%s for %s (on Debian: apt-get install %s)", p.names[0], p.use, p.debian))
			continue
		}
		fmt.Fprintf(out, "dev: NOT tested in %s: this machine has no %s (on Debian: apt-get install %s)\n", p.engine, p.names[0], p.debian)
		left = slices.DeleteFunc(left, func(e string) bool { return e == p.engine })
	}
	if len(needed) > 0 {
		return nil, fmt.Errorf("the tests need programs that this machine doesn't have; install them and run this again:\n  %s", strings.Join(needed, "\n  "))
	}
	return left, nil
}

// needChromium makes sure that the first of programs is there: the benchmarks of
// the page need no other.
func needChromium(ctx context.Context, out io.Writer) error {
	p := programs[0]
	if p.found() {
		return nil
	}
	if onDebian() && os.Geteuid() == 0 {
		return aptInstall(ctx, out, []program{p})
	}
	return fmt.Errorf("this needs %s: install it (on Debian: apt-get install %s) and run this again", p.names[0], p.debian)
}

func missingPrograms() []program {
	return slices.DeleteFunc(slices.Clone(programs), program.found)
}

func (p program) found() bool {
	return slices.ContainsFunc(p.names, func(name string) bool {
		_, err := exec.LookPath(name)
		return err == nil
	})
}

func onDebian() bool {
	_, err := os.Stat(filepath.Join("/etc", "debian_version"))
	return err == nil
}

// aptInstall installs the programs' packages in one call, without what Debian
// only recommends: that would be half a desktop.
func aptInstall(ctx context.Context, out io.Writer, missing []program) error {
	if _, err := exec.LookPath("apt-get"); err != nil {
		return errors.New("no apt-get on this Debian")
	}
	var packages []string
	for _, p := range missing {
		packages = append(packages, p.debian)
	}
	fmt.Fprintln(out, "dev: installing Debian's", strings.Join(packages, ", "), "…")
	for _, args := range [][]string{
		{"update", "-qq"},
		append([]string{"install", "-y", "-qq", "--no-install-recommends"}, packages...),
	} {
		var said bytes.Buffer // a line for each of 700 packages
		c := command(ctx, &said, "apt-get", args...)
		c.Env = append(os.Environ(), "DEBIAN_FRONTEND=noninteractive")
		if err := c.Run(); err != nil {
			out.Write(said.Bytes())
			return fmt.Errorf("apt-get %s: %w", args[0], err)
		}
	}
	return nil
}
