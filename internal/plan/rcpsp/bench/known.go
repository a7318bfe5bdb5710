package bench

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
)

// record is what is known of one instance: proven bounds of the shortest makespan,
// or that there is no schedule.
type record struct {
	lower, upper int
	infeasible   bool
}

// bestKnown reads the one *-best-known.csv in dir, or the one beside dir that has
// its name.
func bestKnown(dir string) (map[string]record, error) {
	found, err := filepath.Glob(filepath.Join(dir, "*-best-known.csv"))
	if err != nil {
		return nil, err
	}
	if len(found) == 0 {
		found = []string{filepath.Clean(dir) + "-best-known.csv"}
	}
	if len(found) > 1 {
		return nil, fmt.Errorf("%s: %d best-known files; keep one", dir, len(found))
	}
	src, err := os.ReadFile(found[0])
	if err != nil {
		return nil, err
	}
	known, err := parseBestKnown(src)
	if err != nil {
		return nil, fmt.Errorf("%s:%w", found[0], err)
	}
	return known, nil
}

// parseBestKnown reads the columns instance, lower bound, upper bound and, if there
// is a fourth, status, where "infeasible" stands for instances without a schedule.
// The first line is a heading. Errors begin with the number of the line.
func parseBestKnown(src []byte) (map[string]record, error) {
	rows := csv.NewReader(bytes.NewReader(src))
	known := map[string]record{}
	for heading := true; ; heading = false {
		row, err := rows.Read()
		if errors.Is(err, io.EOF) {
			return known, nil
		}
		if err != nil {
			return nil, fmt.Errorf(" %w", err)
		}
		if heading {
			continue
		}
		line, _ := rows.FieldPos(0)
		r, err := parseRecord(row)
		if err != nil {
			return nil, fmt.Errorf("%d: %w", line, err)
		}
		if _, twice := known[row[0]]; twice {
			return nil, fmt.Errorf("%d: instance %q is listed twice", line, row[0])
		}
		known[row[0]] = r
	}
}

func parseRecord(row []string) (record, error) {
	if len(row) < 3 {
		return record{}, errors.New("a row must be instance, lower bound, upper bound")
	}
	if len(row) > 3 && row[3] == "infeasible" {
		return record{infeasible: true}, nil
	}
	lower, err1 := strconv.Atoi(row[1])
	upper, err2 := strconv.Atoi(row[2])
	if errors.Join(err1, err2) != nil {
		return record{}, fmt.Errorf("the bounds %q and %q must be whole numbers", row[1], row[2])
	}
	if lower < 0 || lower > upper {
		return record{}, fmt.Errorf("the bounds %d and %d must not be negative, and the upper one not below the lower one", lower, upper)
	}
	return record{lower: lower, upper: upper}, nil
}
