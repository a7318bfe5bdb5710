package safety

// limitsElsewhere are rows of other codes, for comparison only.
var limitsElsewhere = []Limit{
	{ID: "vic_cool", Rules: Elsewhere, Kind: Cool, Case: "cooked food to 21 C", Bound: AtMost, HasTime: true, Minutes: 2 * 60, HasTo: true, ToC: 21, Source: Source{"Victoria (AU) Dept of Health; FSANZ Standard 3.2.2 cl. 7", "", Read}, Note: "then 21 C to 5 C within 4 h: MEMORY"},
	{ID: "codex_cool", Rules: Elsewhere, Kind: Cool, Case: "60 C to 10 C", Bound: AtMost, HasTime: true, Minutes: 2 * 60, HasSpan: true, FromC: 60, ToC: 10, Source: Source{"Codex CAC/RCP 39-1993", "7.7", Memory}, Note: "then store at 4 C or less; use within 5 days"},
	{ID: "au_24", Rules: Elsewhere, Kind: HoldTotal, Case: "2-hour/4-hour guide: total time between 5 and 60 C", Bound: AtMost, HasTime: true, Minutes: 4 * 60, Source: Source{"FSANZ Standard 3.2.2 guidance", "", Read}, Note: "under 2 h may be chilled again; 2-4 h use; over 4 h discard; read in a text that quotes it"},
	{ID: "codex_hot", Rules: Elsewhere, Kind: HoldHot, Case: "", Bound: AtLeast, HasTemp: true, TempC: 60, Source: Source{"Codex CAC/RCP 39-1993", "7.8", Memory}},
}
