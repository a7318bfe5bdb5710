package library

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hobside/internal/document/filetest"
)

// TestHoldAgainstTheRulesIsAProblem: hot food is held at 63 °C by the UK's law and at 135 °F, 57 °C,
// by the US code; chilled food at 8 °C and at 41 °F. The limits' sources are beside them in
// package safety.
func TestHoldAgainstTheRulesIsAProblem(t *testing.T) {
	for _, tt := range []struct{ keep, kitchen, want string }{
		{"30 min hot cupboard at 63 °C", filetest.UKKitchen, ""},
		{"30 min hot cupboard", filetest.UKKitchen, ""},
		{"30 min hot cupboard at 60 °C", filetest.USKitchen, ""},
		{"30 min hot cupboard at 60 °C", filetest.UKKitchen, "a.md:13:4: warning: step 1: held hot at 60 °C: at least 63 °C: UK Food Hygiene Regulations 2006 Sch. 4, paras 3(a), 6 (read); hold it at 63 °C, or write the figures of your own food safety plan"},
		{"30 min in the oven, 55 °C", filetest.USKitchen, "a.md:13:4: warning: step 1: held hot at 55 °C: at least 57 °C (135 °F): US FDA Food Code, 3-501.16(A)(1) (read); hold it at 57 °C, or write the figures of your own food safety plan"},
		{"1 d fridge at 8 °C", filetest.UKKitchen, ""},
		{"1 d fridge at 8 °C", filetest.USKitchen, "a.md:13:4: warning: step 1: held chilled at 8 °C: at most 5 °C (41 °F): US FDA Food Code, 3-501.16(A)(2) (read); hold it at 5 °C, or write the figures of your own food safety plan"},
		{"1 d fridge at 9 °C", filetest.UKKitchen, "a.md:13:4: warning: step 1: held chilled at 9 °C: at most 8 °C: UK Food Hygiene Regulations 2006 Sch. 4 para 2; Food Safety and Hygiene (England) Regs 2013 Sch. 4, para 2 (read); hold it at 8 °C, or write the figures of your own food safety plan"},
	} {
		files := []Source{{"a.md", filetest.Steps("Roots", "- 1 kg carrots", "Mix the **carrots**.|keep: "+tt.keep)}, {"k.md", tt.kitchen}}
		want := []string{}
		if tt.want != "" {
			want = append(want, tt.want)
		}
		assert.Equal(t, want, said(Check(files)), tt.keep)
	}
}
