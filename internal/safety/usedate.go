package safety

import "fmt"

// Use is how long something may be used. The day on which it was made is day 1.
type Use struct {
	Days    int    // number of days, the day it was made included; 0: there is no basis for a number
	After   int    // the last day of use, in days after the day it was made: Days - 1
	Card    bool   // the card's own shorter time decides
	Limit   Limit  // the row of the rule set, where there is one
	Words   string // "use by day 7 (the day it is made is day 1): " and the basis
	Basis   string // whose number it is, and what does not count
	Assumed string
}

// UseBy returns how long ready-to-eat food that is kept cold may be used: the shorter of
// what the rule set and the card say. cardDays is the number of days that the card
// gives, the day it was made included, or 0 where it gives none; below 0 is an error. A
// rule set without a number of days gives none.
func UseBy(rules Rules, cardDays int) (Use, error) {
	if cardDays < 0 {
		return Use{}, fmt.Errorf("nothing keeps for %d days: write how many days, the day it is made among them", cardDays)
	}
	var u Use
	for _, l := range For(rules, DateMark, ReadyToEat) {
		if l.HasTime {
			u.Limit, u.Days = l, int(l.Minutes/1440)
			u.Assumed = "kept at " + Celsius(5) + " or less all the time"
		}
	}
	switch {
	case cardDays > 0 && (u.Days == 0 || cardDays < u.Days):
		u.Days, u.Card = cardDays, true
		u.Basis = "the card's own"
	case u.Days > 0:
		u.Basis = u.Limit.Source.String()
		if cardDays > u.Days {
			u.Basis += fmt.Sprintf("; the card's own %s are longer and do not count", days(cardDays))
		}
	default:
		u.Words = "not assessed: these rules set no count of days; the kitchen sets one and writes down why"
		return u, nil
	}
	u.Words = fmt.Sprintf("use by day %d (the day it is made is day 1): %s", u.Days, u.Basis)
	u.After = u.Days - 1
	return u, nil
}

// days returns "1 day" or "7 days".
func days(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}
