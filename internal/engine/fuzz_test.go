package engine

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

const (
	fuzzSoup = "---\nmakes: 1 kg\nmargin: 5 %\n---\n\n# Soup\n\n## Formula\n\n- 600 g peas\n- 300 g [Stock](stock.md)\n- 1 egg\n- 5 g mint, optional\n\n" +
		"## Method\n\n1. Boil **half the peas** in the **stock**.\n   - hands: 5 min\n   - load: 300 g\n\n### Way: hot\n\n2. Add the **rest of the peas**.\n   - hands: 5 min\n\n" +
		"### Way: cold\n\n2. Chill with the **egg** and **mint**.\n   - hands: 2 min\n"
	fuzzStock = "---\nmakes: 1 kg\nlargest: 2 kg\n---\n\n# Stock\n\n## Formula\n\n- 1 kg bones\n\n## Method\n\n1. Boil the **bones**.\n   - hands: 5 min\n   - until: 1 kg\n\n## Saves\n\n- fat: 50 g\n"
	fuzzMenu  = "---\ncovers: 4\nserve: 2027-06-12 19:30\n---\n\n# Supper\n\n## Soup\n\n- [Soup](soup.md): 200 g per cover\n\n## Guests\n\n- 1 cover: no egg\n"
)

// small returns an engine that follows a dinner of two cards.
func small(t testing.TB) *Engine {
	t.Helper()
	e := New()
	call[LibraryView](t, e, "load", LoadCall{Files: []File{{"soup.md", fuzzSoup}, {"stock.md", fuzzStock}, {"menu.md", fuzzMenu}}})
	soup, stock, menu := dinner.Revision(fuzzSoup), dinner.Revision(fuzzStock), dinner.Revision(fuzzMenu)
	sheet := call[Sheet](t, e, "open", OpenCall{Dinner: "s", Texts: map[string]string{soup: fuzzSoup, stock: fuzzStock, menu: fuzzMenu}, Events: []dinner.Event{{
		ID: "event-open", Dinner: "s", Device: "d", Kind: dinner.KindOpen,
		Open: &dinner.Open{Menu: "menu.md", Covers: 4, Serve: "2027-06-12T19:30", Files: map[string]string{"soup.md": soup, "stock.md": stock, "menu.md": menu}}}}})
	require.Len(t, sheet.Dinner.Cards, 2)
	return e
}

// methods are the calls there are.
var methods = []string{"load", "find", "read", "open", "apply", "prefs", "dinners", "order", "prep", "plan", "change", "scene", "watch", "controls", "labels", "validate", "revision", "guests", "figure", "sheet", "food", "compositions"}

// FuzzCall makes any call with any bytes on an engine that follows a dinner,
// then asks for the dinner and the order list. No call panics, each answers with
// valid JSON, and a call that failed has not changed the dinner.
func FuzzCall(f *testing.F) {
	for _, method := range append(methods, "", "fry") {
		for _, in := range []string{``, `{}`, `null`, `[]`, `"x"`, `{"dinner":"s"}`, `{"dinner":7}`, "\x00\xff"} {
			f.Add(method, []byte(in))
		}
	}
	text, _ := json.Marshal(fuzzSoup)
	f.Add("load", []byte(`{"files":[{"name":"","text":""},{"name":"a.md","text":`+string(text)+`},{"name":"a.md","text":"---\ncovers: 3\n---\n## A\n- [x](a.md)"}]}`))
	f.Add("read", []byte(`{"name":"soup.md","make":"×3"}`))
	f.Add("read", []byte(`{"name":"soup.md","make":"1/3 kg","text":`+string(text)+`}`))
	f.Add("find", []byte(`{"words":"pea \u0301 ſ","most":-1}`))
	f.Add("prefs", []byte(`{"dinner":"s","system":"us","scale":"0.1 g"}`))
	f.Add("guests", []byte(`{"rows":[{"covers":"2","no":"fish, no gluten","note":"by (the) door"}]}`))
	f.Add("figure", []byte(`{"text":"1,620","of":"amount","unit":"g"}`))
	f.Add("figure", []byte(`{"text":"1.200","of":"count"}`))
	f.Add("figure", []byte(`{"text":"−18 F","of":"temperature","unit":"°C"}`))
	f.Add("validate", []byte(`{"events":[{},{"id":"event-0003","dinner":"s","device":"d","kind":"note","stamp":{"wall":9223372036854775807},"text":"hot"}]}`))
	f.Add("change", []byte(`{"dinner":"s","serveAt":1800000000000,"now":1799990000000,"wish":{"what":"goes","cook":"first cook","at":"18:00","until":"19:00"}}`))
	f.Add("change", []byte(`{"dinner":"s","serveAt":1800000000000,"now":9223372036854775807,"wish":{"what":"moves","course":1,"minutes":9223372036854775807}}`))
	f.Add("scene", []byte(`{"dinner":"s","serveAt":1800000000000,"now":-9223372036854775808}`))
	f.Add("apply", []byte(`{"dinner":"s","events":[{"id":"event-0003","dinner":"s","device":"d","stamp":{"wall":3},"kind":"change","do":[{"do":"equipment","equipment":"hob","count":9223372036854775807},{"do":"away","cook":"first cook","times":[{"date":"9999-12-31","from":-9223372036854775808,"to":9223372036854775807}]},{"do":"course","course":1,"minutes":-9223372036854775808},{"do":"strike","course":1,"count":1}]}]}`))
	f.Add("watch", []byte(`{"dinner":"s","key":"stock#1/step/1","now":1800000000000,"offset":60}`))
	f.Add("watch", []byte(`{"dinner":"s","key":"soup#1/step/3","now":-9223372036854775808,"offset":-99999999}`))
	f.Add("controls", []byte(`{"dinner":"s","now":9223372036854775807,"offset":1}`))
	for _, event := range []string{
		`"kind":"covers","number":9`, `"kind":"covers","number":-1`, `"kind":"covers","number":1000000`, `"kind":"covers","number":9223372036854775807`,
		`"kind":"portion","on":"soup","amount":{"qty":"9/10"}`, `"kind":"portion","on":"soup","amount":{"qty":"-1/3","unit":"gram"}`,
		`"kind":"measure","on":"stock#1","amount":{"qty":"0.4","unit":"kg"}`, `"kind":"measure","on":"stock#1/step/1","amount":{"qty":"2","to":"1","unit":"plate"}`,
		`"kind":"measure","on":"stock#1","amount":{"qty":"-5","unit":"kg"}`, `"kind":"measure","on":"soup#7","amount":null`,
		`"kind":"way","on":"soup","number":2`, `"kind":"way","on":"soup","number":-5`, `"kind":"leave","on":"soup/item/4","done":true`, `"kind":"leave","on":"soup/item/999","done":true`,
		`"kind":"pin","open":{"files":{"soup.md":"nowhere"}}`, `"kind":"pin","open":{"files":{"soup.md":"STOCK","stock.md":"SOUP"}}`, `"kind":"pin","open":{"files":{"menu.md":"SOUP"}}`,
		`"kind":"guests","text":"2 covers: no onion\n99 covers: no pea (and a note)"`, `"kind":"guests","text":"## Soup\n- [a](b.md)\n<b>"`, `"kind":"guests"`,
		`"kind":"serve","text":"2027-06-12T23:59"`, `"kind":"serve","text":"soon"`, `"kind":"undo","undo":"event-open"`, `"kind":"tick","on":"soup#1/step/1","done":true`,
		`"kind":"temperature","on":"soup#1/step/3","tempC":-1e308`, `"kind":"note","on":"soup#1/step/3","text":"cooling: 1e300 kg rice, 5 cm deep"`,
		`"kind":"open","stamp":{"wall":-1},"open":{"menu":"soup.md"}`, `"kind":"temperature","on":"soup#1/step/1","tempC":1e308`,
		`"kind":"have","on":"order/pea","amount":{"qty":"1","unit":"kg"}`, `"kind":"again","on":"stock","done":true`,
	} {
		event = strings.NewReplacer("STOCK", dinner.Revision(fuzzStock), "SOUP", dinner.Revision(fuzzSoup)).Replace(event)
		f.Add("apply", []byte(`{"dinner":"s","events":[{"id":"event-0002","dinner":"s","device":"d","stamp":{"wall":2},`+event+`}]}`))
	}
	f.Fuzz(func(t *testing.T, method string, in []byte) {
		e := small(t)
		require.True(t, json.Valid(e.Call(method, in)), "%s answers with something that is no JSON", method)
		for _, after := range []string{"prefs", "order", "prep", "controls", "labels"} {
			var answer struct{ Error string }
			require.NoError(t, json.Unmarshal(e.Call(after, []byte(`{"dinner":"s"}`)), &answer), after)
			require.Empty(t, answer.Error, after)
		}
	})
}
