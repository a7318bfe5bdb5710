package safety

import (
	"errors"
	"fmt"
	"strings"

	"hobside/internal/quantity"
)

// inDoubt returns the error of the first figure in a sentence that can be read in two
// ways, as [quantity.ParseAmount] says: "2,000 g" is 2 kg or 2 g. It is nil for none.
func inDoubt(text string) error {
	mark := func(i int) bool { return text[i] == ',' || text[i] == '.' }
	digit := func(i int) bool { return text[i] >= '0' && text[i] <= '9' }
	for i := 0; i < len(text); i++ {
		if !digit(i) {
			continue
		}
		end := i
		for end < len(text) && (digit(end) || mark(end) && end+1 < len(text) && digit(end+1)) {
			end++
		}
		typed := text[i:end]
		if unit, _, _ := strings.Cut(strings.TrimLeft(text[end:], " "), " "); unit != "" {
			if unit = strings.Trim(unit, ",.;"); masses[strings.ToLower(unit)] > 0 || lengths[strings.ToLower(unit)] > 0 {
				typed += " " + unit
			}
		}
		var doubt *quantity.AmountError
		if _, _, err := quantity.ParseAmount(typed); errors.As(err, &doubt) && doubt.Doubtful {
			return fmt.Errorf("%q %s; %s", typed, doubt.Msg, doubt.Do)
		}
		i = end
	}
	return nil
}
