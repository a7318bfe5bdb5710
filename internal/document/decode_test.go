package document

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
)

// The Fahrenheit rows are by the definition of the scale, °C = (°F − 32) / 1.8.
func TestTemperature(t *testing.T) {
	for in, want := range map[string]float64{
		"63 °C": 63, "core 63 °C": 63, "63C": 63, "63 degrees Celsius": 63, "63 deg C": 63, "62.5 °C": 62.5, "62,5 °C": 62.5,
		"145.4 °F": 63, "32 Fahrenheit": 0, "−18 °C": -18, "to -18 °C": -18, "step 4, 118 °C on the thermometer": 118,
		"60–65 °C": 60, "60 to 65 °C": 60, "60 °C–65 °C": 60, "60 °C to 65 °C": 60, "minus-18 °C": 18,
	} {
		got, ok := Temperature(in)
		if assert.True(t, ok, "%q", in) {
			assert.InDelta(t, want, got, 1e-9, "%q", in)
		}
	}
	for _, in := range []string{"", "63", "63 cm", "63 C4", "4 cups", "°C", "63 ° Kelvin", "63 crème"} {
		_, ok := Temperature(in)
		assert.False(t, ok, "%q", in)
	}
}

func TestParseSeconds(t *testing.T) {
	for in, want := range map[string]int{
		"40 min": 2400, "1 h 30 min": 5400, "90 s": 90, "1.5 h": 5400, "1,5 h": 5400, "1 ½ h": 5400, "½ h": 1800, "2 d": 172800, "1 week": 604800, "45 mins.": 2700, "1h30min": 5400,
		"": -1, "40": -1, "min": -1, "4–5 h": -1, "0 min": -1, "40 min long": -1, "3 years": -1, "800 d": -1, "4–": -1,
	} {
		got, ok := ParseSeconds(in)
		if assert.Equal(t, want > 0, ok, "%q", in) && ok {
			assert.Equal(t, want, got, "%q", in)
		}
	}
}

func TestDurationProblems(t *testing.T) {
	for in, want := range map[string]string{
		"10":                          "a time without a unit (s, min, h, d)",
		"soon":                        "no time",
		"4– h":                        "a dash with no figure after it",
		"3 years":                     "a time without a unit (s, min, h, d)",
		"800 d":                       "a time of more than two years",
		"5–4 h":                       `"5–4 h" begins with the longer time`,
		"10 min long":                 `"10 min long" is not a time`,
		"5 min + 2 min":               `"2 min" does not say per how much`,
		"5 min + 2 per":               "a time without a unit (s, min, h, d)",
		"5 min + 2 min per plenty of": `"per 1 plenty of" is not an amount`,
	} {
		f := Open("a.md", []byte("# A\n"))
		got := f.Duration(Fact{Word: "wait", Value: in})
		if assert.Len(t, f.Problems, 1, in) {
			assert.Equal(t, "wait: "+want, f.Problems[0].Msg, in)
		}
		assert.Equal(t, Duration{}, got)
	}
}

// FuzzDuration reads any bytes as a time: what is read is in order and not
// negative, and what String writes of an exact time is read as the same.
func FuzzDuration(f *testing.F) {
	for _, s := range []string{"10 min", "1 h 30 min", "4–5 h", "at least 2 h", "about 1 ½ h", "overnight", "5 min + 2 min per 6 pieces", "1 h–1 h 30 min", "2 wk", "1 2/3", "–"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, what := readDuration(s)
		if what != "" {
			return
		}
		if d.Low < 0 || d.High < d.Low || d.PerLow < 0 || d.PerHigh < d.PerLow {
			t.Fatalf("%q: %+v", s, d)
		}
		if d.Form == Exact && d.Low > 0 && d.Per.Unit == nil {
			if back, what := readDuration(d.String()); what != "" || back != d {
				t.Fatalf("%q was written as %q and read as %+v, %s", s, d.String(), back, what)
			}
		}
	})
}

// FuzzTemperature reads any bytes as a temperature. What is read is a number,
// and the same with words before it.
func FuzzTemperature(f *testing.F) {
	for _, s := range []string{"63 °C", "145 °F", "60–65 °C", "−18 °C", "60 °C–65 °C", "1e9 C", "999999999999999999999 F"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		c, ok := Temperature(s)
		if math.IsNaN(c) || math.IsInf(c, 0) || !ok && c != 0 {
			t.Fatalf("%q: %v, %v", s, c, ok)
		}
		if again, also := Temperature("until " + s); ok != also || again != c {
			t.Fatalf("%q: %v, %v; after a word %v, %v", s, c, ok, again, also)
		}
	})
}

// FuzzWhen reads any bytes as a date and time. What is read is written in a form
// that is read as the same.
func FuzzWhen(f *testing.F) {
	for _, s := range []string{"2027-06-12 19:30", "12 June 2027, 19:30", "Sat 12 June 2027 at 9:05", "19:30", "24:00", "2027-06-12T19:30", "Monday", "0000-01-01 00:00"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		w, what := ParseWhen(s)
		if what != "" {
			if !w.IsZero() {
				t.Fatalf("%q: %v and %q", s, w, what)
			}
			return
		}
		if back, what := ParseWhen(w.String()); what != "" || back != w {
			t.Fatalf("%q is %q, which is read as %q, %s", s, w, back, what)
		}
	})
}

// FuzzOpen opens any bytes: every fact of the front matter and every problem has
// a place in the file, and offsets lead to the words they are of.
func FuzzOpen(f *testing.F) {
	for _, s := range []string{"---\nmakes: 1 kg\nx\n---\n# A\n", "---\na: b\n\n# A\n", "\uFEFF---\r\nmakes : 1\r\n---\r\n", "---\n", "\x00\xff", ">>> - a\n", "- a: b, c (d, e); 1,5 f\n"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		file := Open("a.md", src)
		for _, fact := range file.Front {
			at := fact.ValueAt - file.Top()
			if at < 0 || at > len(src) || !strings.HasPrefix(string(src[at:]), fact.Value) {
				t.Fatalf("the value %q is not at %d of %q", fact.Value, at, src)
			}
			fact.Split(func(part string, at int) {
				if at -= file.Top(); !strings.HasPrefix(string(src[at:]), part) {
					t.Fatalf("the part %q is not at %d of %q", part, at, src)
				}
			})
		}
		rows := strings.Split(string(src), "\n")
		for _, p := range file.Done() {
			if p.Line < 1 || p.Line > len(rows) || p.Col < 1 || p.Col > utf8.RuneCountInString(rows[p.Line-1])+1 {
				t.Fatalf("%v is outside the file", p)
			}
		}
		if html := HTML(src); strings.Contains(html, "<script") {
			t.Fatalf("a script in %s", html)
		}
	})
}
