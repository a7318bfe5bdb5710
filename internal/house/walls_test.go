package house

import (
	"go/ast"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// floors lists the rooms from the ground up. A room may import rooms of the
// lines above its own.
var floors = [][]string{
	{"quantity", "merge"},
	{"larder", "document"},
	{"card", "safety"},
	{"menu", "kitchen"},
	{"library"},
	{"demand"},
	{"plan"},
	{"dinner"},
	{"monitor"},
	{"engine"}, // the last of the pure rooms
	{"store", "lan", "convert"},
	{"hub"},
	{"web", "folder"},
	{"control"},
	{"site"},
}

// outside are packages that may import any room and that no room may import.
var outside = []string{"internal/house", "internal/browser", "internal/sim"}

// impure are packages inside a pure room that are not compiled into anything:
// they measure it, and may read files and the clock to do so.
var impure = []string{"internal/plan/bench", "internal/plan/rcpsp/bench"}

// pureRoof is the last floor that is pure.
const pureRoof = "engine"

// goldmarkRooms may import the Markdown parser; no other pure room needs more
// than the standard library.
var goldmarkRooms = []string{"document", "card", "menu", "kitchen"}

// barred are imports no pure room may have, with what they would let in. A
// path ending in "/" bars all below it.
var barred = map[string]string{
	"os": "files and the process", "os/": "files and the process", "io/fs": "files", "path/filepath": "the machine's own paths",
	"net": "the network", "net/": "the network", "syscall": "the machine", "syscall/": "the machine", "runtime": "the machine", "runtime/": "the machine",
	"math/rand": "chance that no seed repeats", "math/rand/": "chance that no seed repeats", "crypto/rand": "chance that no seed repeats",
	"sync": "goroutines", "sync/": "goroutines", "context": "goroutines", "log": "the process's own output", "log/": "the process's own output",
	"unsafe": "what the compiler can't watch", "plugin": "files", "testing": "tests in the engine", "testing/": "tests in the engine",
	"text/template": "half a megabyte of engine", "html/template": "half a megabyte of engine",
}

// clock are the names of package time that read a clock, wait for one, or read
// the machine's time zones. The rest is arithmetic.
var clock = []string{"Now", "Since", "Until", "After", "AfterFunc", "Tick", "NewTimer", "NewTicker", "Sleep", "Local", "LoadLocation"}

// vague are names that do not tell what a package is for.
var vague = []string{"util", "utils", "helper", "helpers", "common", "misc", "shared", "lib", "base", "tools", "types"}

func floorOf(room string) int {
	return slices.IndexFunc(floors, func(rooms []string) bool { return slices.Contains(rooms, room) })
}

func (p *pkg) pure() bool {
	at := floorOf(p.room())
	return at >= 0 && at <= floorOf(pureRoof) && !slices.Contains(impure, p.dir)
}

// TestArrowsGoDown holds every import inside the module to the floors.
func TestArrowsGoDown(t *testing.T) {
	for _, p := range packages(t) {
		for _, fault := range arrows(p) {
			t.Error(fault)
		}
	}
}

func arrows(p *pkg) []string {
	var faults []string
	from := p.room()
	if from != "" && floorOf(from) < 0 && !slices.Contains(outside, p.dir) {
		return []string{p.dir + " is on no floor: give it a line in floors"}
	}
	for _, name := range p.imports() {
		dir, ok := strings.CutPrefix(name, module+"/")
		if !ok {
			continue
		}
		to := (&pkg{dir: dir}).room()
		switch {
		case slices.Contains(outside, dir):
			faults = append(faults, p.dir+" imports "+dir+", which is outside the house")
		case from == "" && strings.HasPrefix(p.dir, "cmd/"):
		case from == "":
			faults = append(faults, p.dir+" imports "+dir+"; it holds files, not code")
		case slices.Contains(outside, p.dir):
		case to == "":
			faults = append(faults, p.dir+" imports "+dir+": rooms import rooms only")
		case to != from && floorOf(to) >= floorOf(from):
			faults = append(faults, p.dir+" imports "+dir+": that arrow goes up")
		}
	}
	// The solver is judged by itself and knows nothing of kitchens.
	if strings.HasPrefix(p.dir, "internal/plan/rcpsp") {
		for _, name := range p.imports() {
			if strings.HasPrefix(name, module+"/") && !strings.HasPrefix(name, module+"/internal/plan/rcpsp") {
				faults = append(faults, p.dir+" imports "+name+": the solver knows nothing of kitchens")
			}
		}
	}
	return faults
}

// TestPureRooms looks for clocks, files, network, chance, goroutines and
// changing state in the rooms that run on the phone.
func TestPureRooms(t *testing.T) {
	rooms := map[string]bool{}
	for _, p := range packages(t) {
		if !p.pure() {
			continue
		}
		rooms[p.room()] = true
		for _, fault := range impurities(p) {
			t.Error(fault)
		}
	}
	for _, name := range []string{"quantity", "larder", "document", "card", "menu", "kitchen", "safety", "demand", "plan", "dinner", "engine", "merge"} {
		assert.True(t, rooms[name], "%s is not among the pure rooms", name)
	}
}

func impurities(p *pkg) []string {
	var faults []string
	for _, name := range p.imports() {
		if why := bar(name); why != "" {
			faults = append(faults, p.dir+" imports "+name+", which lets in "+why)
		}
		first, _, _ := strings.Cut(name, "/")
		if strings.Contains(first, ".") && !(strings.HasPrefix(name, "github.com/yuin/goldmark") && slices.Contains(goldmarkRooms, p.room())) {
			faults = append(faults, p.dir+" imports "+name+"; a pure room needs the standard library alone")
		}
	}
	globals := p.globals()
	for _, f := range p.files {
		timeName := localName(f, "time")
		at := func(n ast.Node) string { return p.fset.Position(n.Pos()).String() }
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.GoStmt:
				faults = append(faults, at(n)+": a goroutine")
			case *ast.SelectorExpr:
				if x, ok := n.X.(*ast.Ident); ok && timeName != "" && x.Name == timeName && slices.Contains(clock, n.Sel.Name) {
					faults = append(faults, at(n)+": time."+n.Sel.Name+" reads a clock")
				}
			case *ast.FuncDecl:
				if n.Body != nil && n.Name.Name != "init" {
					for _, s := range assigned(n.Body, f, globals) {
						faults = append(faults, at(s)+": "+s.Name+" belongs to the whole program and is changed while it runs")
					}
				}
			}
			return true
		})
	}
	return faults
}

func bar(name string) string {
	if why := barred[name]; why != "" {
		return why
	}
	for i := range name {
		if name[i] == '/' {
			if why := barred[name[:i+1]]; why != "" {
				return why
			}
		}
	}
	return ""
}

// TestPackageComments checks that every package has a comment that names where
// to start.
func TestPackageComments(t *testing.T) {
	for _, p := range packages(t) {
		for _, fault := range unsaid(p) {
			t.Error(fault)
		}
	}
}

func unsaid(p *pkg) []string {
	name := p.files[0].Name.Name
	var docs []string
	for _, f := range p.files {
		if f.Doc != nil {
			docs = append(docs, f.Doc.Text())
		}
	}
	var faults []string
	if slices.Contains(vague, name) || slices.Contains(vague, path.Base(p.dir)) {
		faults = append(faults, p.dir+": the name says nothing of what lives there")
	}
	begin := "Package " + name + " "
	if name == "main" {
		begin = "Command " + path.Base(p.dir) + " "
	}
	switch {
	case len(docs) == 0:
		faults = append(faults, p.dir+" has no package comment")
	case len(docs) > 1:
		faults = append(faults, p.dir+" has package comments in more than one file")
	case !strings.HasPrefix(docs[0], begin) && !(name == "main" && strings.Contains(docs[0], path.Base(p.dir))):
		faults = append(faults, p.dir+`: the package comment should begin "`+begin+`…"`)
	case len(strings.Fields(docs[0])) < 12:
		faults = append(faults, p.dir+": the package comment is too short to say what lives there and how to enter")
	}
	return faults
}

// TestPureRoomsCompileForThePhone builds them for WebAssembly in a browser.
func TestPureRoomsCompileForThePhone(t *testing.T) {
	args := []string{"build"}
	for _, p := range packages(t) {
		if p.pure() {
			args = append(args, "./"+p.dir)
		}
	}
	args = append(args, "./cmd/engine")
	if out, err := forPhone(t, args...); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
}

func forPhone(t testing.TB, args ...string) (string, error) {
	t.Helper()
	root, err := filepath.Abs("../..")
	require.NoError(t, err)
	c := exec.Command("go", args...)
	c.Dir = root
	c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if args[0] == "build" { // several packages: the result is only checked, unless one is a command
		c.Args = slices.Insert(c.Args, 2, "-o", t.TempDir())
	}
	out, err := c.CombinedOutput()
	return string(out), err
}
