package convert

import (
	"errors"
	"regexp"
	"strings"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/quantity"
)

const countWord = `(?:pinch|pinches|bunch|bunches|leaf|leaves|cloves?|sheets?|sprigs?|sticks?|slices?|pieces?|knobs?|handfuls?|heads?|stalks?|pods?|cans?|tins?|packets?|jars?|bags?|bottles?|loaf|loaves|fillets?|rashers?|drops?|dash|dashes|strips?|cubes?|balls?|wedges?|sachets?|tubs?|cartons?|splash|splashes|squeezes?|drizzles?|dollops?|cups?|teaspoons?|tablespoons?|tsp|tbsp|glass|punnets?|box|bowl)`

const sizeWord = `(?:small|large|big|medium|good|generous|heaped|level|scant|thumb-sized|fat|thick|thin|little|tiny|huge|ripe|fresh)`

var (
	wordFirst = regexp.MustCompile(`(?i)^(?:(?:a|an|one|two|three|four|five|six|half a|a few|some|` + numberWord + `)\s+(?:` + sizeWord + `\s+)?` + countWord + `\b|` + countWord + ` of |(?:grated |finely grated )?(?:juice|zest|rind)\b.* of |a (?:little|good|generous)\b|prise |etwas |ein(?:e|en)? (?:prise|bund|schuss|handvoll|halbe)|bund |saft )`)

	measuredFirst = regexp.MustCompile(`(?i)^` + figure1 + `\s*(?:g|kg|ml|cl|dl|l|oz|lb|lbs|cups?|tsp|tbsp|el|tl|` + countWord + `)\b`)

	articleUnit = regexp.MustCompile(`(?i)^(?:(a|an|one|the|two|three|four|five|six)\s+)?((?:` + sizeWord + `[\s,]+)*)(` + countWord + `)\s+(?:of\s+)?(.+)$`)
	vagueFirst  = regexp.MustCompile(`(?i)^((?:a few|a little|plenty|some|a good grating|a grating|a generous grating|a good pinch or two|a glug|a good glug|a dusting|etwas|ein paar|einige|ein wenig|reichlich)(?:\s+` + countWord + `)?(?:\s+of)?)\s+(.+)$`)
	sizeOf      = regexp.MustCompile(`(?i)^(.+?)\s+((?:the|about the) size of .+|(?:eine?r? )?(?:walnuss|ei|nuss)gro(?:ß|ss).*)$`)
	purpose     = regexp.MustCompile(`(?i)^(.*?\S),?\s+((?:for|zum|für|to) (?:the |a |die |den |das )?(?:[a-z]*frying|dusting|greasing|brushing|serving|serve|garnish(?:ing)?|finish|finishing|decorate|decoration|drizzling|sprinkling|rolling|kneading|coating|deep[- ]?frying|tin|tray|pan|dish|work surface|worktop|bench|top|boiling|bestäuben|einfetten|braten|servieren|bestreuen|garnieren|ausrollen|form|blech|arbeitsfläche|frittieren|bestreichen|deko)\b.*)$`)
	nameFirst   = regexp.MustCompile(`(?i)^(\pL[^\d½¼¾⅓⅔(]*?)[\s:,.–—-]+\(?((?:about |ca\.? )?` + figure1 + `(?:\s*(?:-|–|to|bis)\s*` + figure1 + `)?\s*(?:%|\pL+)?\.?(?:\s*\(\d[^)]*\))?)\)?((?:,\s|\s\().*)?$`)
	plusYolk    = regexp.MustCompile(`(?i)^(.*?),?\s+(?:plus|and|\+|&)\s+((?:\d+|an?|one|two)\s+(?:extra\s+)?(?:egg )?(?:yolks?|whites?).*)$`)
	plusMore    = regexp.MustCompile(`(?i)^(` + figure1 + `\s*\pL+)\s+(.*?),?\s+(?:plus|\+)\s+(?:an? extra |another |an? )?(` + figure1 + `\s*\pL+)\b(.*)$`)
	longPiece   = regexp.MustCompile(`(?i)^(?:(\d+|an?|one|two)\s*(?:x\s*)?)?(\d+(?:[.,]\d+)?\s*-?\s*(?:cm|mm|inch|in)\b)\s*-?\s*(piece|pieces|knob|stick|sticks|strip|strips|length|chunk|slice|slices|Stück)\s+(?:of\s+)?(.+)$`)
	zestJuice   = regexp.MustCompile(`(?i)^((?:(?:finely )?grated )?(?:zest|rind|juice)(?: and (?:zest|juice|rind))) of (` + figure1 + `|an?|one|two|half an?)\s+(.+)$`)
	germanJuice = regexp.MustCompile(`(?i)^((?:abgeriebene[rs]? )?(?:saft|schale|abrieb)(?: und (?:saft|schale|abrieb))?) (?:von |einer |eines )(?:(` + figure1 + `|einer|eine|einem|zwei|drei)\s+)?(?:bio-)?(.+)$`)
	lastBracket = regexp.MustCompile(`^([^()]+?)\s*\(([^()\d½¼¾⅓⅔%]+)\)$`)
	toTaste     = regexp.MustCompile(`(?i)^(.*?),?\s+\(?(?:nach geschmack|to taste|nach bedarf|as needed|n\. ?b\.)\)?$`)
	optionally  = regexp.MustCompile(`(?i)\s*[,(]\s*(?:nach belieben|optional|if liked|if you like|wer mag|wahlweise)\s*\)?`)
	optionalFor = regexp.MustCompile(`(?i)^optional(?:ly)?\s*:?\s+`)
	twoMeasures = regexp.MustCompile(`(?i)^(\d[\d.,]*\s*(?:kg|g|ml|l))\s*[/(|]\s*[^)/|]*?(?:oz|lb|pints?|cups?|fl oz|quarts?|inch|sticks?)\s*\)?\s+(.+)$`)
	swapped     = regexp.MustCompile(`(?i)^([\d¼½¾⅓⅔][\d¼½¾⅓⅔ .,/]*\s*(?:oz|lbs?|pints?|cups?|fl\.? ?oz|quarts?|tbsp|tsp)\.?)\s*[/(|]\s*(\d[\d.,]*\s*(?:kg|g|ml|l))\s*\)?\s+(.+)$`)
)

// readIngredient reads a line of the ingredients, which may be two in one. What can't be
// read is kept word for word.
func (r *Recipe) readIngredient(it draftItem) {
	for _, typed := range r.writings(it.line) {
		if items := formulaOf(typed); items != nil {
			for i, item := range items {
				if shareFirst.MatchString(typed[i]) {
					item.Amount = quantity.Amount{} // what the one line weighs says nothing
				}
				name, prep := cutSize(&item)
				r.Ingredients = append(r.Ingredients, Ingredient{Amount: item.Amount, Percent: item.Percent, Item: name, Prep: prep, Section: it.section,
					Optional: item.Optional, Line: it.line, typed: typed[i]})
			}
			return
		}
	}
	r.leave(it.section, it.line)
}

// shareFirst is a line typed as a percentage.
var shareFirst = regexp.MustCompile(`^\d+(?:[.,]\d+)?\s*%`)

// sizeFirst are words of size before a name.
var sizeFirst = regexp.MustCompile(`(?i)^((?:extra )?large|medium(?:-sized)?|small|große[rs]?|kleine[rs]?|mittelgroße[rs]?)\s+(.+)$`)

// cutSize moves a word of size from the name of what is counted to the preparation. The card keeps it in the
// name, where it says what one weighs.
func cutSize(it *card.Item) (name, prep string) {
	m := sizeFirst.FindStringSubmatch(it.Name)
	if m == nil || it.Amount.Unit == nil || it.Amount.Unit.Dim != quantity.Count {
		return it.Name, it.Prep
	}
	return m[2], joinPrep(m[1], it.Prep)
}

// formulaOf returns what package card reads lines of a formula as: nil where a line is an
// error or is no single item.
func formulaOf(typed []string) []card.Item {
	c, problems := card.Parse("line.md", []byte(formulaHead+bulletList(typed)))
	if len(c.Items) != len(typed) {
		return nil
	}
	for _, p := range problems {
		if p.Severity == document.Error && p.Line > 1 && !strings.Contains(p.Msg, "percent") {
			return nil
		}
	}
	for _, it := range c.Items {
		if strings.TrimSpace(it.Name) == "" {
			return nil
		}
	}
	return c.Items
}

const formulaHead = "---\nmakes: 1 piece\nformula: 1 kg\n---\n\n# Line\n\n## Formula\n\n"

// bulletList writes lines as a list.
func bulletList(typed []string) string {
	var b strings.Builder
	for _, s := range typed {
		b.WriteString("- " + escape(s) + "\n")
	}
	return b.String()
}

// writings returns the ways to type a line for a card, the likeliest first. Each is one line
// or more, and none says what the source does not.
func (r *Recipe) writings(source string) [][]string {
	s := tidyLine(source, r.Language)
	var out [][]string
	add := func(lines ...string) { out = append(out, lines) }
	if m := swapped.FindStringSubmatch(s); m != nil { // the metric one counts
		add(m[2] + " (" + strings.TrimSpace(m[1]) + ") " + m[3])
		add(m[2] + " " + m[3] + ", " + strings.TrimSpace(m[1]))
	}
	if m := zestJuice.FindStringSubmatch(s); m != nil {
		add(m[2] + " " + m[3] + ", " + m[1])
	}
	if m := germanJuice.FindStringSubmatch(s); m != nil {
		count := strings.Replace(m[2], "einem", "1", 1)
		if n := numbersInWords[strings.ToLower(count)]; n != "" {
			count = n
		}
		if count == "" {
			count = "1"
		}
		add(count + " " + m[3] + ", " + m[1])
	}
	if m := longPiece.FindStringSubmatch(s); m != nil {
		count := m[1]
		if count == "" {
			count = "1"
		}
		name, prep, _ := strings.Cut(m[4], ",")
		add(joinPrep(count+" piece "+name, m[2]+" "+m[3], prep))
	}
	if m := lastBracket.FindStringSubmatch(s); m != nil && !strings.EqualFold(m[2], "optional") && len(m[2]) > 2 {
		if head, tail, ok := strings.Cut(m[1], ","); ok {
			add(head + ", " + m[2] + ", " + strings.TrimSpace(tail))
		} else {
			add(m[1] + ", " + m[2])
		}
	}
	if m := plusYolk.FindStringSubmatch(s); m != nil {
		add(m[1], m[2])
	}
	if m := plusMore.FindStringSubmatch(s); m != nil {
		add(m[1] + " plus " + m[3] + " " + m[2] + m[4])
		add(m[1]+" "+m[2], m[3]+" "+m[2]+m[4])
	}
	if !figureFirst.MatchString(s) {
		r.withoutFigure(s, add)
	} else if m := purpose.FindStringSubmatch(s); m != nil && !strings.Contains(m[1], ",") {
		add(m[1] + ", " + m[2])
	}
	add(s)
	if doubt := readings(s, r.Language); doubt != "" {
		r.Doubts = append(r.Doubts, `"`+source+`" is read as "`+doubt+`"`)
		add(doubt)
	}
	if m := twoMeasures.FindStringSubmatch(s); m != nil { // the two differ too much for a pair
		add(m[1] + " " + m[2] + ", " + strings.TrimSpace(strings.TrimSuffix(strings.TrimPrefix(s, m[1]), m[2])))
	}
	if head, tail, ok := cutBracket(s); ok {
		add(head+", "+tail, head)
	}
	return out
}

// withoutFigure adds the writings of a line that begins with no figure.
func (r *Recipe) withoutFigure(s string, add func(...string)) {
	if m := articleUnit.FindStringSubmatch(s); m != nil {
		count := numbersInWords[strings.ToLower(m[1])]
		if count == "" {
			count = "1"
		}
		name, prep, _ := strings.Cut(m[4], ",")
		add(joinPrep(count+" "+m[3]+" "+name, strings.Trim(m[2], " ,"), prep))
	}
	if m := vagueFirst.FindStringSubmatch(s); m != nil {
		name, prep, _ := strings.Cut(m[2], ",")
		add(joinPrep(name, m[1], prep))
	}
	if m := sizeOf.FindStringSubmatch(s); m != nil {
		add(m[1] + ", " + m[2])
	}
	if m := toTaste.FindStringSubmatch(s); m != nil {
		add(m[1] + ", to taste")
	}
	if m := purpose.FindStringSubmatch(s); m != nil {
		add(m[1] + ", " + m[2])
	}
	if m := nameFirst.FindStringSubmatch(s); m != nil && !ofEnd.MatchString(m[1]) {
		name, prep, _ := strings.Cut(m[1], ",")
		amount := figures(strings.TrimSpace(m[2]), r.Language)
		if _, rest, err := quantity.ParseAmount(amount); (err != nil || rest != "") && !strings.Contains(amount, "%") {
			return // "simmer 5 mins"
		}
		add(joinPrep(amount+" "+strings.TrimSpace(name), prep, strings.TrimLeft(m[3], ", ")))
	}
}

// ofEnd are the last words of a part that is taken of something: "juice of".
var ofEnd = regexp.MustCompile(`(?i)\b(?:of|von|der|eines|einer)$`)

// joinPrep joins a name and what belongs to its preparation, the empty left out.
func joinPrep(name string, prep ...string) string {
	for _, p := range prep {
		if p = strings.Trim(p, " ,"); p != "" {
			name += ", " + p
		}
	}
	return name
}

// tidyLine returns a line without its bullet and full stop, with figures that can be read.
func tidyLine(s, lang string) string {
	s = strings.TrimSpace(strings.NewReplacer("⁄", "/", "’", "'", "″", " in", "×", "x", "\t", " ").Replace(s))
	s = strings.TrimSpace(strings.TrimRight(s, ".,;: "))
	if optionalFor.MatchString(s) {
		s = optionalFor.ReplaceAllString(s, "") + ", optional"
	}
	if optionally.MatchString(s) {
		s = optionally.ReplaceAllString(s, "") + ", optional"
	}
	return figures(s, lang)
}

// readings returns a line whose figure can be read in two ways with the one that its
// language means: "1,500 g" is 1500 g in English and 1.5 g in German. "" for other lines.
func readings(s, lang string) string {
	_, _, err := quantity.ParseAmount(s)
	var doubt *quantity.AmountError
	if !errors.As(err, &doubt) || !doubt.Doubtful {
		return ""
	}
	m := thousands.FindStringSubmatch(s)
	if m == nil {
		return ""
	}
	if (m[2] == ",") == (lang == "en") {
		return m[1] + m[3] + m[4]
	}
	return m[1] + "." + strings.TrimRight(m[3], "0") + m[4]
}

// thousands is a figure with three digits behind a comma or a point.
var thousands = regexp.MustCompile(`^(\d+)([.,])(\d{3})(\D.*)$`)

// cutBracket takes a last bracket off a line: its words become a line of their own only as
// preparation.
func cutBracket(s string) (head, inside string, ok bool) {
	open, end := strings.LastIndexByte(s, '('), strings.LastIndexByte(s, ')')
	if open < 1 || end < open {
		return s, "", false
	}
	return squeeze(s[:open] + s[end+1:]), s[open+1 : end], true
}
