package kitchen

import (
	"errors"
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/quantity"
)

// price reads a line of the list of prices: "butter: €9.20 per kg", "eggs: 0.30
// each", "thyme: 1.10 per bunch". A line that is no price is a problem.
func (p *parser) price(item ast.Node) {
	f, ok := p.ItemFact(item)
	if !ok {
		return
	}
	const form = `write it like "- butter: 9.20 per kg" or "- eggs: 0.30 each"`
	if f.Word == "" {
		p.Err(f.At, `"`+f.Value+`" has no price`, "", form)
		return
	}
	sum, per, ok := strings.Cut(f.Value, " per ")
	if !ok {
		sum, ok = strings.CutSuffix(strings.TrimSpace(f.Value), "each")
		per = "1"
	}
	figure := strings.TrimFunc(sum, func(r rune) bool { return !unicode.IsDigit(r) })
	price := Price{Item: f.Word, Currency: strings.TrimSpace(strings.Replace(sum, figure, "", 1)), Pos: p.Place(f.At)}
	cost, rest, err := quantity.ParseAmount(figure)
	var doubt *quantity.AmountError
	if errors.As(err, &doubt) && doubt.Doubtful {
		p.Err(f.ValueAt, `"`+f.Value+`" `+doubt.Msg, "", doubt.Do)
		return
	}
	if !ok || err != nil || rest != "" || cost.Unit != quantity.Each || !cost.To.IsZero() || len([]rune(price.Currency)) > 4 {
		p.Err(f.ValueAt, `"`+f.Value+`" is not a price`, "", form)
		return
	}
	price.Cost = cost.Qty
	per = strings.TrimSpace(per)
	if per != "" && !unicode.IsDigit([]rune(per)[0]) {
		per = "1 " + per
	}
	price.Per, rest, err = quantity.ParseAmount(per)
	if errors.As(err, &doubt) && doubt.Doubtful {
		p.Err(f.ValueAt, `"`+per+`" `+doubt.Msg, "", doubt.Do)
		return
	}
	if err != nil || price.Per.Unit == nil || rest != "" {
		p.Err(f.ValueAt, `"`+per+`" is not an amount that can have a price`, "", form)
		return
	}
	p.kitchen.Prices = append(p.kitchen.Prices, price)
}
