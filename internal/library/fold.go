package library

import (
	"unicode"
	"unicode/utf8"
)

// plain is what a cook without accents on the keyboard types for each letter of
// Latin-1 and Latin Extended-A, from U+00C0 on; "-" where that is not one letter.
const plain = "aaaaaa-ceeeeiiiidnooooo-ouuuuy--" + // À to ß
	"aaaaaa-ceeeeiiiidnooooo-ouuuuy-y" + // à to ÿ
	"aaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiii--jjkkklllllll" + // Ā to Ŀ
	"lllnnnnnnn--oooooo--rrrrrrssssssssttttttuuuuuuuuuuuuwwyyyzzzzzzs" // ŀ to ſ

// fold appends words as they are compared: small letters without accents.
func fold(out []byte, s string) []byte {
	for _, r := range s {
		r = unicode.ToLower(r)
		switch {
		case r >= 0xc0 && r < 0x180 && plain[r-0xc0] != '-':
			out = append(out, plain[r-0xc0])
		case r == 'ß':
			out = append(out, "ss"...)
		case r == 'æ':
			out = append(out, "ae"...)
		case r == 'œ':
			out = append(out, "oe"...)
		case r == '-' || r == '’' || r == '\'' || r == '\n':
			out = append(out, ' ')
		case r >= 0x300 && r <= 0x36f: // an accent written as a character of its own
		default:
			out = utf8.AppendRune(out, r)
		}
	}
	return out
}
