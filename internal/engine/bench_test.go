package engine

import (
	"encoding/json"
	"testing"

	"hobside/internal/sitting"
)

// BenchmarkOpenDinner opens the demo dinner from nothing, as a phone does when
// it wakes: all cards compiled, the dinner worked out and written as JSON.
func BenchmarkOpenDinner(b *testing.B) {
	p, _ := demo(b)
	f := p.e.sittings[p.sitting]
	in := OpenCall{Sitting: p.sitting, Texts: f.texts}
	for _, ev := range f.events {
		in.Events = append(in.Events, ev)
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
	for i := range covers {
		ev := p.stamp(sitting.Event{Kind: sitting.KindCovers, Number: 18 + 6*i})
		covers[i], _ = json.Marshal(ApplyCall{Sitting: p.sitting, Events: []sitting.Event{ev}})
	}
	f := p.e.sittings[p.sitting]
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		for id, ev := range f.events { // the newest counts: forget the tap before
			if ev.Kind == sitting.KindCovers {
				delete(f.events, id)
			}
		}
		p.e.Call("apply", covers[i%2])
	}
}

// BenchmarkDinnerTick is the tap that changes no amount.
func BenchmarkDinnerTick(b *testing.B) {
	p, d := demo(b)
	ev := p.stamp(sitting.Event{Kind: sitting.KindTick, On: d.Cards[0].Makings[0].Steps[0].Key, Done: true})
	call, _ := json.Marshal(ApplyCall{Sitting: p.sitting, Events: []sitting.Event{ev}})
	b.ReportAllocs()
	for b.Loop() {
		p.e.Call("apply", call)
	}
}
