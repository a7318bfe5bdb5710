package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
)

// dropLines takes the tables of files and lines out of a WebAssembly module
// that Go's linker made: what a stack trace prints after a function's name, and
// a tenth of what a phone would fetch. The linker has no flag for it. Function
// names stay, and so does everything that panics, recover and the collector read.
//
// The runtime takes an offset of 0 for "no table" and prints "?" for the line,
// so that is what every function gets; then the bytes nobody points to any more
// become noughts, which compress to nothing. The layout is that of runtime.pcHeader
// and runtime._func in Go 1.20 to 1.26; a module that has another is refused.
func dropLines(module []byte) error {
	mem, err := dataOf(module)
	if err != nil {
		return err
	}
	head, err := mem.pcHeader()
	if err != nil {
		return err
	}
	nfunc := mem.u32(head + 8)
	if nfunc == 0 || nfunc > len(module) {
		return fmt.Errorf("a function table of %d functions: has the compiler changed?", nfunc)
	}
	pctab, funcs := head+mem.u32(head+56), head+mem.u32(head+64)

	kept, dropped := map[int]bool{}, map[int]bool{}
	for i := range nfunc {
		f := funcs + mem.u32(funcs+8*i+4)
		kept[mem.u32(f+16)] = true // pcsp: how deep the stack is
		npcdata := mem.u32(f + 28)
		if npcdata > 8 { // internal/abi knows five
			return fmt.Errorf("a function with %d tables for the collector: has the compiler changed?", npcdata)
		}
		for k := range npcdata {
			kept[mem.u32(f+44+4*k)] = true // pcdata: what the collector and recover ask
		}
		for _, field := range []int{f + 20, f + 24} { // pcfile, pcln
			dropped[mem.u32(field)] = true
			mem.clear(field, field+4)
		}
		mem.clear(f+32, f+40) // cuOffset and startLine: which file names, from which line
	}
	mem.clear(head+mem.u32(head+40), pctab) // cutab and filetab: the files' names
	delete(kept, 0)                         // which is "no table"
	delete(dropped, 0)
	wanted := map[int]bool{} // bytes of tables that are kept, in case two tables overlap
	for at := range kept {
		for b, end := pctab+at, mem.tableEnd(pctab+at); b < end; b++ {
			wanted[b] = true
		}
	}
	var unread []int // found first, cleared after: a cleared table has no end
	for at := range dropped {
		for b, end := pctab+at, mem.tableEnd(pctab+at); b < end; b++ {
			if !wanted[b] {
				unread = append(unread, b)
			}
		}
	}
	for _, b := range unread {
		mem.clear(b, b+1)
	}
	return nil
}

// A memory is what a module's data segments put into the phone's memory, with
// the place in the module of each byte. What no segment fills is 0 there.
type memory struct {
	module   []byte
	segments []segment // in order of address
}

type segment struct{ address, at, size int }

// dataOf finds the data section (WebAssembly core specification 2.0, 5.5.14).
func dataOf(module []byte) (*memory, error) {
	if !bytes.HasPrefix(module, []byte("\x00asm\x01\x00\x00\x00")) {
		return nil, errors.New("no WebAssembly module")
	}
	m := &memory{module: module}
	at := 8
	for at < len(module) {
		id := m.leb(&at)
		size := m.leb(&at)
		end := at + size
		if end > len(module) {
			return nil, errors.New("a section that goes past the end of the module")
		}
		if id == 11 {
			for n := m.leb(&at); n > 0; n-- {
				if m.leb(&at) != 0 || m.leb(&at) != 0x41 { // active, at an i32.const
					return nil, errors.New("a data segment of another kind than Go's linker makes")
				}
				s := segment{address: m.leb(&at)}
				m.leb(&at) // end of the expression
				s.size = m.leb(&at)
				s.at = at
				if at += s.size; at > end {
					return nil, errors.New("a data segment that goes past the end of its section")
				}
				m.segments = append(m.segments, s)
			}
		}
		at = end
	}
	if len(m.segments) == 0 {
		return nil, errors.New("no data in the module")
	}
	slices.SortFunc(m.segments, func(a, b segment) int { return a.address - b.address })
	return m, nil
}

// leb reads a number of up to 32 bits in LEB128, 0 past the end of the module.
// Signed ones are read alike: addresses are below 2³¹.
func (m *memory) leb(at *int) (n int) {
	for shift := 0; shift < 35 && *at < len(m.module); shift += 7 {
		c := m.module[*at]
		*at++
		n |= int(c&0x7f) << shift
		if c < 0x80 {
			break
		}
	}
	return n
}

// pcHeader finds runtime.pcHeader by its first eight bytes.
func (m *memory) pcHeader() (address int, err error) {
	found := 0
	for _, s := range m.segments {
		data := m.module[s.at : s.at+s.size]
		for i := 0; ; i++ {
			k := bytes.Index(data[i:], []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8})
			if k < 0 {
				break
			}
			i += k
			address = s.address + i
			found++
		}
	}
	if found != 1 {
		return 0, fmt.Errorf("%d function tables of Go's linker where there should be one: has the compiler changed?", found)
	}
	return address, nil
}

// byteAt is where in the module the byte of an address is, −1 for one that no
// segment fills.
func (m *memory) byteAt(address int) int {
	lo, hi := 0, len(m.segments)
	for lo < hi {
		mid := (lo + hi) / 2
		if s := m.segments[mid]; address >= s.address+s.size {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	if lo < len(m.segments) && address >= m.segments[lo].address {
		return m.segments[lo].at + address - m.segments[lo].address
	}
	return -1
}

func (m *memory) u8(address int) byte {
	if i := m.byteAt(address); i >= 0 {
		return m.module[i]
	}
	return 0
}

func (m *memory) u32(address int) int {
	return int(binary.LittleEndian.Uint32([]byte{m.u8(address), m.u8(address + 1), m.u8(address + 2), m.u8(address + 3)}))
}

func (m *memory) clear(from, to int) {
	for ; from < to; from++ {
		if i := m.byteAt(from); i >= 0 {
			m.module[i] = 0
		}
	}
}

// tableEnd is the address after a table of pairs, value and length, in varints,
// that ends at a value of 0; only the first value may be 0 (runtime.step).
func (m *memory) tableEnd(at int) int {
	for first := true; ; first = false {
		if m.u8(at) == 0 && !first {
			return at + 1
		}
		for range 2 {
			for m.u8(at) >= 0x80 {
				at++
			}
			at++
		}
	}
}
