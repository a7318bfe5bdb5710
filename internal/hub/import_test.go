package hub_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"hobside/internal/dinner"
	"hobside/internal/hub"
)

// importing returns the request of an import of one file.
func importing(t *testing.T, base, text string) hub.Request {
	req := request(t, hub.Offer{ID: "file-" + dinner.Revision(text), Name: "stock.md", Base: base, Text: text})
	req.Device, req.Import = "import", true
	return req
}

// TestImportGoesOnFromTheLastImport: a file of a folder comes again and again. A change on
// one side is taken, changes of other lines are merged, and changes of the same lines on
// both sides are two versions; the newest text is never a mixture.
func TestImportGoesOnFromTheLastImport(t *testing.T) {
	four, two, long := edited("3 kg", "4 kg"), edited("3 kg", "2 kg"), edited("Simmer.", "Simmer for 5 h.")
	both := strings.Replace(four, "Simmer.", "Simmer for 5 h.", 1)
	app := func(text string) func(t *testing.T, h *hub.Hub) { // an edit of the newest text in the app
		return func(t *testing.T, h *hub.Hub) {
			newest := pulled(t, h).newest["stock.md"]
			sync1(t, h, request(t, hub.Offer{ID: "app-" + dinner.Revision(newest.Text+text), Name: "stock.md", Base: newest.Revision, Text: text}))
		}
	}
	disk := func(text string, clashes bool) func(t *testing.T, h *hub.Hub) {
		return func(t *testing.T, h *hub.Hub) {
			for range 2 { // a repeat says the same and changes nothing
				before := len(pulled(t, h).records)
				reply := sync1(t, h, importing(t, "", text))
				assert.Empty(t, reply.Refused)
				assert.Len(t, reply.Acked, 1)
				assert.Equal(t, clashes, len(reply.Clashed) == 1, "%v", reply.Clashed)
				if before == len(pulled(t, h).records) {
					return
				}
			}
			before := len(pulled(t, h).records)
			sync1(t, h, importing(t, "", text))
			assert.Len(t, pulled(t, h).records, before)
		}
	}
	type steps []func(t *testing.T, h *hub.Hub)
	for name, tt := range map[string]struct {
		steps  steps
		newest string
		beside []string
	}{
		"edited on disk":                       {steps{disk(stock, false), disk(four, false)}, four, nil},
		"edited on disk twice":                 {steps{disk(stock, false), disk(four, false), disk(two, false)}, two, nil},
		"edited on disk and back":              {steps{disk(stock, false), disk(four, false), disk(stock, false)}, stock, nil},
		"there and back and there again":       {steps{disk(stock, false), disk(four, false), disk(stock, false), disk(four, false)}, four, nil},
		"edited in the app":                    {steps{disk(stock, false), app(four), disk(stock, false)}, four, nil},
		"edited the same on both sides":        {steps{disk(stock, false), app(four), disk(four, false)}, four, nil},
		"other lines on both sides":            {steps{disk(stock, false), app(four), disk(long, false)}, both, nil},
		"the same lines on both sides":         {steps{disk(stock, false), app(four), disk(two, true)}, four, []string{two}},
		"the same lines, and the disk again":   {steps{disk(stock, false), app(four), disk(two, true), disk(edited("3 kg", "1 kg"), true)}, four, []string{edited("3 kg", "1 kg")}},
		"never imported":                       {steps{app(four), disk(two, true)}, four, []string{two}},
		"never imported, an earlier text":      {steps{app(stock), app(four), disk(stock, false)}, four, nil},
		"edited in the app, then also on disk": {steps{disk(stock, false), app(long), disk(stock, false), disk(four, false)}, both, nil},
	} {
		t.Run(name, func(t *testing.T) {
			h, _, _ := newHub(t)
			for _, step := range tt.steps {
				step(t, h)
			}
			l := pulled(t, h)
			assert.Equal(t, tt.newest, l.newest["stock.md"].Text)
			assert.Equal(t, tt.beside, l.beside())
			for _, f := range l.records {
				assert.NotContains(t, f.Text, "Two versions")
			}
		})
	}
}

// TestImportKnowsWhatAnExportWasMadeFrom: a folder that was exported after the last import
// says which revision each file was made from.
func TestImportKnowsWhatAnExportWasMadeFrom(t *testing.T) {
	h, _, _ := newHub(t)
	four, five := edited("3 kg", "4 kg"), edited("3 kg", "5 kg")
	sync1(t, h, importing(t, "", stock))
	sync1(t, h, request(t, offer("offer-0001", dinner.Revision(stock), four)))
	reply := sync1(t, h, importing(t, dinner.Revision(four), five)) // exported as four, then edited
	assert.Empty(t, reply.Clashed)
	assert.Equal(t, five, pulled(t, h).newest["stock.md"].Text)
}
