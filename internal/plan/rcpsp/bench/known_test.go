package bench

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseBestKnownReadsBoundsAndStatus(t *testing.T) {
	known, err := parseBestKnown([]byte("instance,lower_bound,upper_bound,status\na,3,5,open\nb,,,infeasible\n"))
	require.NoError(t, err)
	assert.Equal(t, map[string]record{"a": {lower: 3, upper: 5}, "b": {infeasible: true}}, known)
}

// FuzzBestKnown reads any bytes. What is read without an error has bounds in order,
// and reads the same after it was written.
func FuzzBestKnown(f *testing.F) {
	files, err := filepath.Glob(testdata + "*/*/*-best-known.csv")
	require.NoError(f, err)
	require.NotEmpty(f, files)
	for _, file := range files {
		src, err := os.ReadFile(file)
		require.NoError(f, err)
		f.Add(src)
	}
	f.Add([]byte("i,l,u,s\na,1,2,open\nb,,,infeasible\n\"c\n\",3,3,optimal\n"))
	f.Fuzz(func(t *testing.T, src []byte) {
		known, err := parseBestKnown(src)
		if err != nil {
			return
		}
		var b strings.Builder
		w := csv.NewWriter(&b)
		require.NoError(t, w.Write([]string{"instance", "lower", "upper", "status"}))
		for name, r := range known {
			require.LessOrEqual(t, r.lower, r.upper)
			row := []string{name, fmt.Sprint(r.lower), fmt.Sprint(r.upper), "open"}
			if r.infeasible {
				row[3] = "infeasible"
			}
			require.NoError(t, w.Write(row))
		}
		w.Flush()
		again, err := parseBestKnown([]byte(b.String()))
		require.NoError(t, err)
		require.Equal(t, known, again)
	})
}
