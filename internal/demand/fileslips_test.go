package demand

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"hobside/internal/document"
	"hobside/internal/library"
)

// judgeFile returns what became of a slip in the menu or the kitchen, and for a lost
// one why. Every value of both is shown or planned with, so one that is another was
// changed where a cook sees it; one that is gone needs a problem.
func (b *bench) judgeFile(name, text string) (o outcome, why string) {
	before, f := b.set[name], library.Compile(name, text)
	if p := b.problems(f); len(p) > 0 && !reflect.DeepEqual(p, b.known[name]) {
		return found, ""
	}
	if (f.Menu == nil) != (before.Menu == nil) || (f.Kitchen == nil) != (before.Kitchen == nil) {
		return lost, "it is another kind of file"
	}
	had, have := leaves(before), leaves(f)
	if reflect.DeepEqual(had.values, have.values) {
		return understood, ""
	}
	for path, n := range had.count {
		if have.count[path] < n {
			return lost, path
		}
	}
	return shownValue, ""
}

// fileLeaves are the values of a file that are not zero: how many there are of each
// field, and all of them in the order of the file.
type fileLeaves struct {
	count  map[string]int
	values []string
}

// leaves returns the values of a menu or a kitchen, without its source and positions.
func leaves(f *library.File) fileLeaves {
	out := fileLeaves{count: map[string]int{}}
	if f.Menu != nil {
		out.walk("menu", reflect.ValueOf(*f.Menu))
	}
	if f.Kitchen != nil {
		out.walk("kitchen", reflect.ValueOf(*f.Kitchen))
	}
	return out
}

func (l *fileLeaves) walk(path string, v reflect.Value) {
	switch {
	case v.Type() == reflect.TypeFor[document.Pos](), v.Type() == reflect.TypeFor[[]byte]():
		return
	case v.Kind() == reflect.Struct && v.CanInterface() && v.Type().PkgPath() != "hobside/internal/quantity":
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				l.walk(path+"."+v.Type().Field(i).Name, v.Field(i))
			}
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			l.count[path+"[]"]++
			l.walk(path+"[]", v.Index(i))
		}
	case !v.IsZero() || strings.HasSuffix(path, ".From"): // a shift may begin at midnight
		l.count[path]++
		l.values = append(l.values, fmt.Sprintf("%s=%+v", path, v))
	}
}

// TestNoSlipInAMenuOrKitchenIsLost makes 2,000 single slips in the demo's menu and
// kitchen, as [TestNoSlipIsLost] does in its cards.
func TestNoSlipInAMenuOrKitchenIsLost(t *testing.T) {
	b := newBench(t)
	r := rand.New(rand.NewPCG(slipSeed, 2))
	names := []string{"boathouse-supper.md", "boathouse-kitchen.md"}
	for _, name := range names {
		b.known[name] = b.problems(b.set[name])
	}
	all := map[outcome]int{}
	for i := 0; i < 2000; {
		name := names[i%2]
		kind := slips[r.IntN(len(slips))]
		text, ok := kind.do(b.texts[name], r)
		if !ok || text == b.texts[name] {
			continue
		}
		i++
		got, why := b.judgeFile(name, text)
		all[got]++
		if got == lost {
			t.Errorf("slip %d of seed %d, a %s in %s: lost: %s: %s", i, slipSeed, kind.name, name, why, differs(b.texts[name], text))
		}
	}
	t.Log(tally(all))
}
