package dinner

import (
	"encoding/binary"
	"math/bits"
)

// sum256 is SHA-256 (FIPS 180-4, sections 4 to 6). It is written out here
// because it names texts and guards nothing: crypto/sha256 brings the whole of
// the standard library's certified cryptography with it, forty kilobytes that
// every phone would have to fetch. A test holds it to crypto/sha256.
func sum256(text string) [32]byte {
	h := [8]uint32{0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19}
	// The last block or two: what is left, a one bit, noughts, the length in bits.
	whole := len(text) &^ 63
	tail := make([]byte, 0, 128)
	tail = append(append(tail, text[whole:]...), 0x80)
	for len(tail)%64 != 56 {
		tail = append(tail, 0)
	}
	tail = binary.BigEndian.AppendUint64(tail, uint64(len(text))*8)
	for i := 0; i < whole; i += 64 {
		block256(&h, []byte(text[i:i+64]))
	}
	for i := 0; i < len(tail); i += 64 {
		block256(&h, tail[i:i+64])
	}
	var sum [32]byte
	for i, word := range h {
		binary.BigEndian.PutUint32(sum[4*i:], word)
	}
	return sum
}

// block256 mixes 64 bytes in: section 6.2.2, with its letters.
func block256(hash *[8]uint32, block []byte) {
	var w [64]uint32
	for t := range 16 {
		w[t] = binary.BigEndian.Uint32(block[4*t:])
	}
	turn := func(x uint32, n int) uint32 { return bits.RotateLeft32(x, -n) }
	for t := 16; t < 64; t++ {
		s0 := turn(w[t-15], 7) ^ turn(w[t-15], 18) ^ w[t-15]>>3
		s1 := turn(w[t-2], 17) ^ turn(w[t-2], 19) ^ w[t-2]>>10
		w[t] = s1 + w[t-7] + s0 + w[t-16]
	}
	a, b, c, d, e, f, g, h := hash[0], hash[1], hash[2], hash[3], hash[4], hash[5], hash[6], hash[7]
	for t := range 64 {
		t1 := h + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) + (e&f ^ ^e&g) + k256[t] + w[t]
		t2 := (turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + (a&b ^ a&c ^ b&c)
		a, b, c, d, e, f, g, h = t1+t2, a, b, c, d+t1, e, f, g
	}
	for i, word := range [8]uint32{a, b, c, d, e, f, g, h} {
		hash[i] += word
	}
}

// k256 are the first 32 bits of the fractional parts of the cube roots of the
// first 64 primes (section 4.2.2).
var k256 = [64]uint32{
	0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
	0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
	0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
	0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
	0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
	0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
	0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
	0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
}
