package larder

import (
	_ "embed"
	"slices"
	"strings"
)

//go:embed sizes.txt
var sizesText string

// sizeNames are the sizes of the table, in the order of its columns.
var sizeNames = []string{"small", "medium", "large", "extra large"}

// sizes holds the rows of the table by the name of a food.
var sizes = readSizes(sizesText)

// A sizeRow is what one of each size weighs.
type sizeRow struct {
	row   string   // of USDA SR28
	units []string // what is counted: "each", "head"
	grams []string // by sizeNames, "" where it is not known
}

// readSizes reads the embedded table: food ; row of USDA SR28 ; what is counted ; grams of
// the four sizes.
func readSizes(text string) map[string]sizeRow {
	m := map[string]sizeRow{}
	for line := range strings.SplitSeq(strings.TrimSpace(text), "\n") {
		cells := strings.Split(line, ";")
		m[cells[0]] = sizeRow{cells[1], strings.Split(cells[2], ","), cells[3:]}
	}
	return m
}

// What is taken of a fruit, in the place of a size: see [Own].
const (
	Juice = "juice"
	Zest  = "zest"
)

// juices are the grams of juice that one fruit yields, with the row of USDA SR28.
var juices = map[string]struct{ grams, row string }{
	"lemon": {"48", "09152"}, "lime": {"44", "09160"}, "orange": {"86", "09206"}, "grapefruit": {"196", "09404"},
}

// pressed returns the grams of juice that one of a fruit yields. No table that was read has
// figures for its zest.
func (n Near) pressed(taken string) Figure {
	for f := n.Food; f != nil && taken == Juice; f = f.parent {
		if j, ok := juices[f.Name]; ok {
			return Figure{Value: number(j.grams), Source: "SR28 " + j.row + ", what one yields"}
		}
	}
	return Figure{}
}

// SizeOf returns the size that the words of an item begin with or have before its name:
// "large" of "large red onions"; "" where they have none. What follows a comma, or "in"
// ("onions in large chunks"), is no size of the whole.
func SizeOf(item string) string {
	list := strings.Fields(key(item))
	for i, word := range list {
		switch word {
		case "in", "with", "cut", "and", "from", "for":
			return ""
		case "small", "medium":
			return word
		case "large", "big":
			if i > 0 && (list[i-1] == "extra" || list[i-1] == "very") {
				return "extra large"
			}
			return "large"
		}
	}
	return ""
}

// sized returns the grams of one of a size, "" for no size. Where the table has no figure
// for the size, it is that of one of any size, and the source says so.
func (n Near) sized(unit, size string, british bool) Figure {
	if (size == Juice || size == Zest) && unit == "each" {
		if n.Food == nil {
			return Figure{}
		}
		return n.pressed(size)
	}
	any := n.Each(unit)
	if size == "" || !any.Known() && !n.hasSizes(unit) || n.Same && !n.variant && SizeOf(n.Name) != "" {
		return any
	}
	at := slices.Index(sizeNames, size)
	for f := n.Food; f != nil; f = f.parent {
		row, ok := sizes[f.Name]
		if ok = ok && f.own == nil && !f.variant && slices.Contains(row.units, unit); ok && row.grams[at] != "" && !(british && f.Is("egg")) {
			out := Figure{Value: number(row.grams[at]), Source: "SR28 " + row.row + ", " + size}
			if f.Name != n.Food.Name || !n.Same {
				out.Source += ", as for " + f.Name
			}
			return out
		}
		if f.own != nil && len(f.own.Weights) > 0 || !f.variant && f.own == nil && f.value(figureWord(unit)) != "" {
			break // it says what one of its own weighs
		}
	}
	if any.Known() {
		any.Source += "; no figure for a " + size + " one"
	}
	return any
}

// hasSizes reports whether the table of sizes has a food or a broader one by a unit.
func (n Near) hasSizes(unit string) bool {
	for f := n.Food; f != nil; f = f.parent {
		if slices.Contains(sizes[f.Name].units, unit) {
			return true
		}
	}
	return false
}
