package safety

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rows reads a file of testdata into maps by its heading.
func rows(t testing.TB, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, r := range all[1:] {
		m := map[string]string{}
		for i, h := range all[0] {
			m[h] = r[i]
		}
		out = append(out, m)
	}
	require.NotEmpty(t, out)
	return out
}

func num(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return v
}

// minutes turns a time of the file into minutes.
func minutes(t *testing.T, value, unit string) float64 {
	t.Helper()
	v := num(t, value)
	switch strings.Fields(unit)[0] {
	case "s":
		return v / 60
	case "min":
		return v
	case "h":
		return v * 60
	case "d":
		return v * 1440
	}
	t.Fatalf("no unit of time: %q", unit)
	return 0
}

// TestLimitsMatchPublishedRows compares every row of the published limits, value by
// value, with the table in the code. Each row of the file has its source.
func TestLimitsMatchPublishedRows(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range rows(t, "limits.csv") {
		t.Run(r["id"], func(t *testing.T) {
			l, ok := byID(r["id"])
			require.True(t, ok, "not in the table")
			seen[l.ID] = true
			assert.Equal(t, map[string]Status{"READ": Read, "MEMORY": Memory}[r["status"]], l.Source.Status)
			assert.Equal(t, r["edition"], l.Source.Publication)
			assert.Equal(t, r["locator"], l.Source.Section)
			switch r["limit"] {
			case "min":
				assert.Equal(t, AtLeast, l.Bound)
			case "max", "below":
				assert.Equal(t, AtMost, l.Bound)
			}
			switch r["unit"] {
			case "degC":
				require.True(t, l.HasTemp)
				assert.Equal(t, num(t, r["value"]), l.TempC)
				switch r["time"] {
				case "":
					assert.False(t, l.HasTime)
				case "<1", "0":
					assert.True(t, l.AtOnce && l.HasTime)
				default:
					require.True(t, l.HasTime && !l.AtOnce)
					assert.InDelta(t, minutes(t, r["time"], r["time_unit"]), l.Minutes, 1e-9)
					assert.Equal(t, strings.Contains(r["time_unit"], "stand") || strings.Contains(r["time_unit"], "rest"), l.Stand)
				}
			case "":
			default:
				require.True(t, l.HasTime)
				assert.InDelta(t, minutes(t, r["value"], r["unit"]), l.Minutes, 1e-9)
			}
		})
	}
	for _, l := range All() {
		if !strings.HasPrefix(l.ID, "fc_roast_") {
			assert.True(t, seen[l.ID], "%s has no published row", l.ID)
		}
	}
}

// TestRoastTableMatchesFoodCode: US FDA Food Code 3-401.11(B), read in two copies; and the 6.5
// log column of USDA FSIS Appendix A, which has the same times.
func TestRoastTableMatchesFoodCode(t *testing.T) {
	file := rows(t, "roast_table.csv")
	require.Len(t, roastTable, len(file))
	fsis := map[string]string{}
	for _, r := range rows(t, "fsis_appendix_a.csv") {
		fsis[r["temp_F"]] = r["t_6p5log_s"]
	}
	cook := Cook(US, Roast)
	require.Len(t, cook, len(file))
	for i, r := range file {
		assert.Equal(t, num(t, r["temp_C"]), cook[i].TempC)
		assert.InDelta(t, num(t, r["hold_s"]), cook[i].Minutes*60, 1e-9)
		assert.InDelta(t, FromF(num(t, r["temp_F"])), cook[i].TempC, 0.06)
		assert.Equal(t, fsis[r["temp_F"]], r["hold_s"], "%s °F", r["temp_F"])
		assert.Equal(t, r["hold_s"] == "0", cook[i].AtOnce)
	}
}

func TestEveryLimitIsComplete(t *testing.T) {
	ids := map[string]bool{}
	for _, l := range All() {
		assert.False(t, ids[l.ID], "%s is there twice", l.ID)
		ids[l.ID] = true
		assert.NotEmpty(t, l.Source.Publication, l.ID)
		assert.NotEmpty(t, l.Source.Status, l.ID)
		assert.NotContains(t, strings.ToLower(l.String()+l.Case+l.Note), "safe", l.ID)
		for _, c := range l.Classes {
			assert.True(t, c.known(), "%s: class %q", l.ID, c)
		}
	}
	all := All()
	all[0].ID = "mine"
	assert.NotEqual(t, "mine", All()[0].ID, "the table can be changed from outside")
	_, ok := byID("no such row")
	assert.False(t, ok)
}

// TestCook: what is asked of each class. The values are those of the file; this
// tests which of its rows are chosen.
func TestCook(t *testing.T) {
	tests := []struct {
		rules Rules
		class Class
		want  []string
	}{
		{US, Poultry, []string{"at least 74 °C, at once"}},
		{US, Stuffed, []string{"at least 74 °C, at once"}},
		{US, Game, []string{"at least 74 °C, at once"}},
		{US, Beef, []string{"at least 63 °C for 15 s"}},
		{US, Fish, []string{"at least 63 °C for 15 s"}},
		{US, Egg, []string{"at least 63 °C for 15 s"}},
		{US, Minced, []string{"at least 63 °C for 3 min", "at least 66 °C for 1 min", "at least 68 °C for 17 s", "at least 70 °C, at once"}},
		{US, PooledEgg, []string{"at least 63 °C for 3 min", "at least 66 °C for 1 min", "at least 68 °C for 17 s", "at least 70 °C, at once"}},
		{UK, Poultry, []string{"at least 60 °C for 45 min", "at least 65 °C for 10 min", "at least 70 °C for 2 min", "at least 75 °C for 30 s", "at least 80 °C for 6 s"}},
		// ACMSF 2007 as quoted (read): food likely to carry STEC needs 93 min at 60 °C, 14 min at
		// 65 °C; the shorter times of the general advice do not count for it.
		{UK, Minced, []string{"at least 60 °C for 1 h 33 min", "at least 65 °C for 14 min", "at least 70 °C for 2 min", "at least 75 °C for 30 s", "at least 80 °C for 6 s"}},
		{US, Bones, nil},
		{US, NotKnown, nil},
		{UK, Stock, nil},
		{"moon", Poultry, nil},
	}
	for _, tt := range tests {
		t.Run(string(tt.rules)+" "+string(tt.class), func(t *testing.T) {
			var got []string
			for _, l := range Cook(tt.rules, tt.class) {
				got = append(got, l.String())
			}
			assert.Equal(t, tt.want, got)
		})
	}
	for _, c := range Classes() {
		for _, l := range Cook(US, c) {
			assert.False(t, l.Old, "an old edition was chosen: %s", l.ID)
		}
	}
}

func TestFor(t *testing.T) {
	ids := func(ls []Limit) (out []string) {
		for _, l := range ls {
			out = append(out, l.ID)
		}
		return out
	}
	assert.Equal(t, []string{"fc_hot_roast", "fc_hot"}, ids(For(US, HoldHot, Roast)), "what is written for the class comes first")
	assert.Equal(t, []string{"fc_hot"}, ids(For(US, HoldHot, Stock)))
	assert.Equal(t, []string{"uk_cold", "uk_cold_tol", "uk_cold_adv"}, ids(For(UK, HoldCold, Cooked)))
	assert.Equal(t, []string{"fc_egg_recv", "fc_cold"}, ids(For(US, HoldCold, Egg)))
	assert.Equal(t, []string{"fc_thaw_water"}, ids(For(US, Thaw, Fish)))
	assert.Equal(t, []string{"fc_tphc4", "fc_tphc6"}, ids(For(US, TimeOnly, Cooked)))
	assert.Equal(t, []string{"eu_par"}, ids(For(UK, FreezeRaw, Fish)))
}

func TestLimitString(t *testing.T) {
	tests := []struct{ id, want string }{
		{"fc_cool_1", "from 57 °C to 21 °C in at most 2 h"},
		{"fc_cool_2", "from 57 °C to 5 °C in at most 6 h"},
		{"fc_cool_amb", "to 5 °C in at most 4 h"},
		{"fc_par_a", "at most −20 °C for 7 days"},
		{"fc_reheat_micro", "at least 74 °C, then 2 min standing"},
		{"fc_date", "at most 7 days"},
		{"fsis_b1a", "from 54.4 °C to 26.7 °C in at most 1 h 30 min"},
		{"uk_cool90", "at most 1 h 30 min"},
		{"fc_par_exempt", "exempt: molluscan shellfish; listed Thunnus species; pellet-fed aquaculture; roe removed and rinsed"},
	}
	for _, tt := range tests {
		l, ok := byID(tt.id)
		require.True(t, ok)
		assert.Equal(t, tt.want, l.String())
	}
	l, _ := byID("fc_poultry_2017")
	assert.Equal(t, "US FDA Food Code 2017, 2022, 3-401.11(A)(3) (read)", l.Source.String())
	assert.Equal(t, "common practice, no source", Source{Status: Common}.String())
	assert.Equal(t, "0 °C", Celsius(-0.04))
	assert.Equal(t, "2 min 14 s", Span(134.0/60))
	assert.Equal(t, "24 h", Span(1440))
}

func TestClassOf(t *testing.T) {
	tests := []struct {
		name string
		want Class
	}{
		{"free-range chicken thighs", Poultry}, {"Chicken carcasses", Bones}, {"brown chicken stock", Stock}, {"chicken of the woods", NotKnown},
		{"lamb shoulder", Lamb}, {"lamb's lettuce", NotKnown}, {"lamb’s lettuce", NotKnown}, {"minced beef", Minced}, {"ground turkey", Poultry},
		{"cod fillet", Fish}, {"oysters", Shellfish}, {"oyster sauce", NotKnown}, {"oyster mushrooms", NotKnown}, {"eggs", Egg}, {"egg yolks", Egg},
		{"egg noodles", NotKnown}, {"hard-boiled eggs", NotKnown}, {"quail's eggs", Egg}, {"roast chicken, leftover", NotKnown}, {"smoked trout", NotKnown},
		{"risotto rice", Rice}, {"rice vinegar", NotKnown}, {"goat's cheese", NotKnown}, {"pâté de campagne", NotKnown}, {"Demi-glace", Stock},
		{"veal bones", Bones}, {"soup bones", Bones}, {"boneless pork loin", Pork}, {"stuffed quail", Stuffed}, {"wild boar", Game}, {"vegan sausages", NotKnown},
		{"carrot", NotKnown}, {"", NotKnown}, {"crème fraîche", NotKnown}, {"rib-eye", Beef},
	}
	for _, tt := range tests {
		assert.Equal(t, tt.want, ClassOf(tt.name), "%q", tt.name)
	}
}
