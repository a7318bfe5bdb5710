package engine

import (
	"encoding/json"
	"testing"

	"hobside/internal/dinner"
)

// BenchmarkOpenDinner opens the demo dinner from nothing, as a phone does when
// it wakes: all cards compiled, the dinner worked out and written as JSON.
func BenchmarkOpenDinner(b *testing.B) {
	p, _ := demo(b)
	f := p.e.dinners[p.dinner]
	in := OpenCall{Dinner: p.dinner, Texts: map[string]string{}, Events: f.All()}
	for _, file := range demoFiles(b) {
		in.Texts[dinner.Revision(file.Text)] = file.Text
	}
	call, err := json.Marshal(in)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		New().Call("open", call)
	}
}

// BenchmarkDinnerChangesCovers is the tap that works everything out again.
func BenchmarkDinnerChangesCovers(b *testing.B) {
	p, _ := demo(b)
	covers := [2][]byte{}
	ev := p.stamp(dinner.Event{Kind: dinner.KindCovers})
	for i := range covers {
		ev.Number = 18 + 6*i // a copy of the event before, which it replaces
		covers[i], _ = json.Marshal(ApplyCall{Dinner: p.dinner, Events: []dinner.Event{ev}})
	}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		p.e.Call("apply", covers[i%2])
	}
}

// BenchmarkDinnerTick is the tap that changes no amount.
func BenchmarkDinnerTick(b *testing.B) {
	p, d := demo(b)
	ev := p.stamp(dinner.Event{Kind: dinner.KindTick, On: d.Cards[0].Batches[0].Steps[0].Key, Done: true})
	call, _ := json.Marshal(ApplyCall{Dinner: p.dinner, Events: []dinner.Event{ev}})
	b.ReportAllocs()
	for b.Loop() {
		p.e.Call("apply", call)
	}
}
