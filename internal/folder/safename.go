package folder

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"
)

// reserved are names that Windows keeps for devices, with any ending (Microsoft,
// "Naming Files, Paths, and Namespaces", from memory).
const reserved = " con prn aux nul conin$ conout$ com0 com1 com2 com3 com4 com5 com6 com7 com8 com9 com¹ com² com³ lpt0 lpt1 lpt2 lpt3 lpt4 lpt5 lpt6 lpt7 lpt8 lpt9 lpt¹ lpt² lpt³ "

// safeNames returns a file name for each name that any usual system can hold, and no
// two that a system would take for one. A name stays as it is where it can. Notes say
// which were changed. All names end in ending.
func safeNames(names []string, ending string) (safe map[string]string, notes []string) {
	safe, taken := map[string]string{}, map[string]bool{}
	names = slices.Sorted(slices.Values(names))
	for _, name := range names {
		if plainName(name) == name && !taken[sameName(name)] {
			safe[name], taken[sameName(name)] = name, true
		}
	}
	for _, name := range names {
		if safe[name] != "" {
			continue
		}
		stem := strings.TrimSuffix(plainName(name), ending)
		file := stem + ending
		for n := 2; taken[sameName(file)]; n++ {
			file = fmt.Sprintf("%s-%d%s", stem, n, ending)
		}
		safe[name], taken[sameName(file)] = file, true
		notes = append(notes, fmt.Sprintf("%s is written as %s: some systems can't hold its own name, or take it for another's", name, file))
	}
	return safe, notes
}

// plainName returns a name without what some systems refuse in one. README.md is
// changed too, because import leaves files of that name out.
func plainName(name string) string {
	name = strings.Map(func(r rune) rune {
		if r < ' ' || strings.ContainsRune(`<>:"/\|?*`, r) {
			return '-'
		}
		return r
	}, name)
	stem, _, _ := strings.Cut(name, ".")
	if name == "README.md" || strings.Contains(reserved, " "+strings.ToLower(strings.TrimRight(stem, " "))+" ") {
		return "x-" + name
	}
	return name
}

// sameName returns what two names have in common that some system takes for one: it
// knows neither case nor how an accent is composed.
func sameName(name string) string {
	return norm.NFC.String(strings.ToLower(strings.ToUpper(norm.NFC.String(name))))
}

// keysOf returns the keys of a map as a list.
func keysOf[V any](m map[string]V) []string { return slices.Collect(maps.Keys(m)) }
