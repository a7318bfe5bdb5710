// Command panics panics in every way a program of ours could and recovers: the
// runtime reads its function tables to do so. The last one ends it.
package main

import (
	"fmt"
	"runtime"
)

type large struct {
	all  [4]int
	next *large
}

func (l large) first() int { return l.all[0] }

func try(f func()) {
	defer func() { fmt.Println(recover()) }()
	f()
}

func main() {
	var none *large
	var m map[string]int
	few, i := []int{1}, 5
	try(func() { fmt.Println(interface{ first() int }(none).first()) })
	try(func() { fmt.Println(none.next.all) })
	try(func() { fmt.Println(few[i]) })
	try(func() { m["salt"] = 1 })
	try(func() { panic("our own") })
	for range 20 { // the collector walks the stack by the same tables
		grow(200)
		runtime.GC()
	}
	panic("the end")
}

//go:noinline
func grow(n int) []*large {
	if n == 0 {
		return nil
	}
	return append(grow(n-1), &large{})
}
