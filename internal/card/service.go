package card

import (
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// Service is what a card says of its way to the guest and into the store. Its words are
// as typed and never scale; "" where the card says nothing.
type Service struct {
	Temperature string  // at which it is served: "65 °C", "cold"
	ServeC      float64 // the same in °C, where it is one temperature and HasC
	HasC        bool
	Tool        string // what one portion is measured with: "ladle, 125 ml"
	Station     string // where it is finished
	Container   string // what it is kept in: "tub, 1 L, with a lid"
	Label       string // what the label says beside name, dates and allergens
	Picture     Picture
}

// A Picture shows the finished plate. It is in the card itself, so that it is there offline.
type Picture struct {
	Words  string // what it shows, for who can't see it
	Source string // "data:image/png;base64,…"; "" for a picture that can't be shown
}

// serviceWords are the facts of "## Service", in the order they are shown in.
var serviceWords = []string{"serving temperature", "portion tool", "station", "container", "label"}

// field returns where the value of a fact of "## Service" is kept, nil for any other word.
func (s *Service) field(word string) *string {
	switch word {
	case "serving temperature":
		return &s.Temperature
	case "portion tool":
		return &s.Tool
	case "station":
		return &s.Station
	case "container":
		return &s.Container
	case "label":
		return &s.Label
	}
	return nil
}

// serviceBlock reads one block below "## Service": a list of facts, or the picture.
func (p *parser) serviceBlock(n ast.Node) {
	if !p.onlyPicture(n) {
		p.eachItem(n, p.serviceFact)
	}
}

// onlyPicture reports whether a block is the picture of the plate and nothing else, and
// keeps the picture.
func (p *parser) onlyPicture(block ast.Node) bool {
	only := block.FirstChild()
	pic, ok := only.(*ast.Image)
	if !ok || only.NextSibling() != nil {
		return false
	}
	p.picture(pic, p.LineOf(block))
	return true
}

// serviceFact reads one line of "## Service".
func (p *parser) serviceFact(block ast.Node, words string, at int) {
	if p.onlyPicture(block) {
		return
	}
	f := document.LineFact(words, at)
	field := p.card.Service.field(f.Word)
	switch {
	case f.Word == "":
		p.Err(f.At, `"`+document.Clip(f.Value)+`" has no colon, so it is not read as a fact`, "", `write a word and its value, like "portion tool: ladle, 125 ml"`)
	case field == nil:
		hint, do := document.Nearest(f.Word, serviceWords), ""
		if hint == "" {
			do = "the facts of a service are " + strings.Join(serviceWords, ", ")
		}
		p.Err(f.At, `unknown fact "`+f.Word+`"`, hint, do)
	case f.Value == "":
		p.Err(f.At, `"`+f.Word+`" says nothing`, "", "write its value after the colon, or take the line out")
	case *field != "":
		p.Err(f.At, `"`+f.Word+`" is there twice`, "", "take one out")
	case p.serviceValue(f):
		*field = p.said(f)
	}
}

// serviceValue reports whether the value of a fact can be what the fact says, and adds
// the problem where it can't.
func (p *parser) serviceValue(f document.Fact) bool {
	switch f.Word {
	case "serving temperature":
		c, ok := document.Temperature(f.Value)
		switch {
		case !ok && strings.ContainsAny(f.Value, "0123456789"):
			p.Err(f.ValueAt, `"`+f.Value+`" gives no temperature`, "", `write it with its unit, like "serving temperature: 65 °C"`)
			return false
		case ok && (c > mostCoreC || !document.PlausibleTemperature(c)):
			p.Err(f.ValueAt, `"`+f.Value+`" is no temperature that food is served at`, "", "check the figure and its unit")
			return false
		}
		s := &p.card.Service
		s.ServeC, s.HasC = document.ParseTemperature(f.Value, "")
	case "container":
		number, rest, _ := strings.Cut(f.Value, " ")
		word, _, _ := strings.Cut(strings.TrimRight(rest, ",."), " ")
		if n, err := strconv.Atoi(number); err == nil && n > 1 && !isMeasure(word) {
			p.Warn(f.ValueAt, `"`+document.Clip(f.Value)+`" stays the same when the amount grows`, "", `write what one is and holds, like "container: tub, 1 L"`)
		}
	}
	return true
}

// isMeasure reports whether a word is a unit of weight or volume.
func isMeasure(word string) bool {
	u, _ := quantity.LookupUnit(strings.Trim(word, ".,;()"))
	return measured(u)
}

// picture keeps the picture of the plate. Only one that is in the card itself can be
// shown: no other is there without a network.
func (p *parser) picture(n *ast.Image, at int) {
	s := &p.card.Service
	if p.pictured {
		p.Err(at, "a second picture of the plate", "", "take one out")
		return
	}
	p.pictured = true
	s.Picture.Words, _ = p.Text(n)
	s.Picture.Words = document.Valid(s.Picture.Words)
	if s.Picture.Words == "" {
		p.Warn(at, "the picture has no words for who can't see it", "", `write what it shows in the brackets: "![The lamb leans on the beans](…)"`)
	}
	source := string(n.Destination)
	if _, ok := document.CutAny(source, "data:image/png;base64,", "data:image/jpeg;base64,", "data:image/webp;base64,"); !ok {
		p.Warn(at, `the picture "`+document.Clip(source)+`" is not shown: it is not in the card, so it is not there without a network`, "", `put it into the card as "data:image/jpeg;base64,…"`)
		return
	}
	s.Picture.Source = document.Valid(source)
}

// Service returns the facts of the service as they are shown.
func (s *Scaled) Service() []ShownFact {
	of := s.Card.Service
	if of.HasC {
		of.Temperature = s.degrees(of.ServeC)
	}
	var out []ShownFact
	for _, word := range serviceWords {
		if value := *of.field(word); value != "" {
			out = append(out, ShownFact{Word: word, Value: value, Stove: value})
		}
	}
	return out
}
