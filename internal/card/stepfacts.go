package card

import (
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
)

// factWords are the fixed words of a step's facts, and the standard equipment,
// which is there too.
var factWords = func() []string {
	words := []string{"hands", "wait", "load", "until", "keep", "cool", "check", "caution", "serve", "saves", "after", "before", "apart", "unwatched", "plates"}
	for _, s := range document.StandardEquipment() {
		words = append(words, s.Name)
	}
	return words
}()

// before is a fact that names another part of the card. It is checked at the end.
type before struct {
	step int
	fact document.Fact
}

// knows reports whether a word is a fact, a standard piece of equipment, or one of the kitchen's.
func (p *parser) knows(word string) bool {
	switch word {
	case "hands", "wait", "load", "until", "keep", "keeps", "cool", "check", "caution", "serve", "saves", "after", "before", "apart", "unwatched", "plates":
		return true
	}
	if _, ok := document.FindEquipment(word); ok {
		return true
	}
	return p.hasExtra(word)
}

func (p *parser) hasExtra(word string) bool {
	for _, e := range p.extra {
		if strings.EqualFold(e, word) {
			return true
		}
	}
	return false
}

// facts reads the nested list of a step. It returns the lines that are no facts:
// they are part of what the cook reads.
func (p *parser) facts(step int, l *ast.List) (remarks []string) {
	had := p.had[:0]
	for item := l.FirstChild(); item != nil; item = item.NextSibling() {
		f, ok := p.ItemFact(item)
		if !ok {
			continue
		}
		remarks = append(remarks, p.below(step, item)...)
		if line, at := p.Lines(item.FirstChild()); p.runsOn(item.FirstChild()) || !p.knows(f.Word) && p.colonless(line, at) {
			continue
		}
		if name, ok := document.FindVessel(f.Word); ok && document.SaysSize(f.Value) {
			p.vessel(step, name, f)
			continue
		}
		bare := f.Word == ""
		if bare {
			f.Word, f.ValueAt = strings.ToLower(f.Value), f.At+len(f.Value)
			f.Value = ""
		}
		if !p.knows(f.Word) {
			words, _ := p.Text(item.FirstChild())
			if p.unknownFact(step, f, bare) {
				remarks = append(remarks, words)
			}
			continue
		}
		p.fact(step, f, &had)
	}
	p.had = had
	p.card.Steps[step].machineLoad()
	return remarks
}

// unknownFact adds the problem of a word that is no fact. remark is true when the
// line is to be read as words.
func (p *parser) unknownFact(step int, f document.Fact, bare bool) (remark bool) {
	hint := document.Nearest(f.Word, factWords)
	if hint == "" && p.extra != nil {
		hint = document.Nearest(f.Word, p.extra)
	}
	switch {
	case hint != "" && !bare:
		p.Err(f.At, `unknown fact "`+f.Word+`"`, hint, "")
	case hint != "":
		p.Warn(f.At, `"`+f.Word+`" is read as words`, hint, "")
		return true
	case bare:
		return true
	case strings.Count(f.Word, " ") > 1 || len(f.Word) > 24:
		return true // a sentence with a colon in it
	case p.extra != nil:
		p.Err(f.At, `unknown fact "`+f.Word+`"`, "", "it is neither a fact nor equipment of the kitchen")
	default:
		p.Warn(f.At, `"`+f.Word+`" is not a fact; it is taken for equipment that the kitchen must have`, "", `name it in the kitchen under "## Equipment", or put it in the step's words`)
		s := &p.card.Steps[step]
		s.Equipment = append(s.Equipment, p.equipment(f.Word, f))
	}
	return false
}

// fact reads one fact into its step. had holds the words that may occur once.
func (p *parser) fact(step int, f document.Fact, had *[]string) {
	s := &p.card.Steps[step]
	switch f.Word {
	case "hands", "wait", "load", "until", "cool", "unwatched", "plates":
		for _, w := range *had {
			if w == f.Word {
				p.Err(f.At, `"`+f.Word+`" is there twice in step `+strconv.Itoa(s.Number), "", "take one out, or part the step in two")
			}
		}
		*had = append(*had, f.Word)
	}
	if f.Value == "" {
		switch f.Word {
		case "hands", "wait", "load", "until", "keep", "keeps", "cool", "check", "caution", "saves", "after", "before", "apart", "plates":
			p.Err(f.At, `"`+f.Word+`" says nothing`, "", "write its value after the colon, or take the line out")
			return
		}
	}
	switch f.Word {
	case "hands":
		s.Hands = p.Duration(p.upTo(f, s))
	case "wait":
		s.Wait = p.Duration(p.attended(f, s))
	case "load":
		s.Load = p.positive(f)
	case "until":
		s.Until = p.until(f)
	case "keep", "keeps":
		s.Keep = append(s.Keep, p.keeps(f)...)
	case "plates":
		s.Plates = p.plates(f)
	case "cool":
		s.Cool = p.cool(f)
	case "check":
		s.Check = append(s.Check, p.check(f))
	case "caution":
		s.Caution = append(s.Caution, p.said(f))
	case "serve":
		s.Serve = p.yes(f)
	case "unwatched":
		s.Unwatched = p.yes(f)
	case "saves":
		f.Split(func(part string, at int) {
			s.Saves = append(s.Saves, document.Slug(part))
			p.befores = append(p.befores, before{step, document.Fact{Word: f.Word, Value: part, At: f.At, ValueAt: at}})
		})
	case "apart":
		s.Apart = append(s.Apart, p.apart(f)...)
	case "after", "before":
		p.befores = append(p.befores, before{step, f})
	default:
		name := f.Word
		if std, ok := document.FindEquipment(f.Word); ok {
			name = std.Name
		}
		s.Equipment = append(s.Equipment, p.equipment(name, f))
	}
}

// said returns a value that is for people, without mark-up.
func (p *parser) said(f document.Fact) string {
	if !strings.ContainsAny(f.Value, "*_`") {
		return document.Valid(f.Value)
	}
	return document.Valid(strings.NewReplacer("**", "", "__", "", "`", "").Replace(f.Value))
}

func (p *parser) yes(f document.Fact) bool {
	switch strings.ToLower(f.Value) {
	case "", "yes", "true", "at the pass":
		return true
	case "no", "false":
		return false
	}
	p.Err(f.ValueAt, `"`+f.Word+`" is yes or no, not "`+f.Value+`"`, "", `write "`+f.Word+`: yes", or put the words in the step`)
	return false
}
