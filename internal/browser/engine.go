package browser

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// Engine is the name of a browser engine.
type Engine string

// The engines that phones have.
const (
	Chromium Engine = "chromium"
	WebKit   Engine = "webkit"
	Firefox  Engine = "firefox"
)

// Engines lists all engines.
var Engines = []Engine{Chromium, WebKit, Firefox}

// programs are the programs that an engine needs on the machine, one of each
// line. A pattern is tried as a path, a bare name is looked up in PATH.
var programs = map[Engine][][]string{
	Chromium: {{"chromium", "chromium-browser", "google-chrome", "chrome"}},
	WebKit:   {{"WebKitWebDriver"}, {"Xvfb"}, {"/usr/lib/*/webkit2gtk-4.*/MiniBrowser", "/usr/libexec/webkit2gtk-4.*/MiniBrowser"}},
	Firefox:  {{"firefox-esr", "firefox"}},
}

// packages are the Debian packages that bring an engine.
var packages = map[Engine]string{Chromium: "chromium", WebKit: "webkit2gtk-driver xvfb", Firefox: "firefox-esr"}

// KeepsProfile reports whether the engine's browser, closed and started again, remembers what pages kept. WebKit's
// MiniBrowser keeps everything in memory while a driver holds it.
func (e Engine) KeepsProfile() bool { return e != WebKit }

// find returns the paths of the engine's programs, in the order of programs.
func (e Engine) find() ([]string, error) {
	var paths []string
	for _, names := range programs[e] {
		path := first(names)
		if path == "" {
			return nil, fmt.Errorf("%s is not on this machine: there is no %s (on Debian: apt-get install %s)", e, strings.Join(names, ", "), packages[e])
		}
		paths = append(paths, path)
	}
	return paths, nil
}

// first returns the path of the first program that exists, "" when none does.
func first(names []string) string {
	for _, name := range names {
		if strings.ContainsRune(name, filepath.Separator) {
			if found, _ := filepath.Glob(name); len(found) > 0 {
				return found[len(found)-1]
			}
		} else if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	return ""
}

// Variable names the environment variable that says which engines to test.
const Variable = "HOBSIDE_ENGINES"

// Choose returns the engines to test: those that the environment variable
// HOBSIDE_ENGINES names, separated by commas, or, where it is empty, those on
// this machine; absent says of each of the others why it is not tested. It fails
// when the variable names something else than an engine or an engine that is
// missing, and when the machine has no engine.
func Choose() (chosen []Engine, absent []error, err error) {
	list := os.Getenv(Variable)
	for name := range strings.SplitSeq(list, ",") {
		if e := Engine(strings.TrimSpace(name)); list != "" && !slices.Contains(Engines, e) {
			return nil, nil, fmt.Errorf("%s=%q: %q is not an engine; there are %v", Variable, list, e, Engines)
		}
	}
	for _, e := range Engines {
		named := slices.ContainsFunc(strings.Split(list, ","), func(s string) bool { return Engine(strings.TrimSpace(s)) == e })
		if list != "" && !named {
			absent = append(absent, fmt.Errorf("%s is not in %s=%q", e, Variable, list))
			continue
		}
		if _, err := e.find(); err == nil {
			chosen = append(chosen, e)
		} else if named {
			return nil, nil, err
		} else {
			absent = append(absent, err)
		}
	}
	if len(chosen) == 0 {
		return nil, absent, fmt.Errorf("no browser engine is on this machine: %w", absent[0])
	}
	return chosen, absent, nil
}
