package document

import "bytes"

// maxCells is how many cells the tables of a file may have together. The parser
// fills every row up to the columns of its table, so that a few kilobytes of
// short rows could become millions of cells. A large card has some hundreds.
const maxCells = 20_000

// tooWide returns the offset of the table with which a file comes to more than
// maxCells cells, or −1.
func tooWide(body []byte) int {
	if cells, table := countCells(body, maxCells); cells > maxCells {
		return table
	}
	return -1
}

// countCells counts the cells of the tables in a file and stops above limit. It
// never returns less than the parser makes of tables with two and more columns,
// whatever quotes and lists they are in: what may be a line of dashes and pipes
// counts as one, and every line below it up to the next blank one as a row. Table
// is the offset of the last table counted.
func countCells(body []byte, limit int) (cells, table int) {
	columns := 0
	for at := 0; at < len(body) && cells <= limit; {
		end := bytes.IndexByte(body[at:], '\n')
		if end < 0 {
			end = len(body) - at
		}
		line := body[at : at+end]
		if n := delimiterColumns(line); n > columns {
			if columns == 0 {
				table = at
			}
			columns = n
		} else if len(bytes.Trim(line, " \t\r")) == 0 {
			columns = 0
		}
		cells += columns // the line of dashes stands for the heading
		at += end + 1
	}
	return cells, table
}

// delimiterColumns returns the most columns that a line can begin as the line of
// dashes below a table's heading; it is 0 when the line can't be one, or has no
// pipe.
func delimiterColumns(line []byte) int {
	pipes, dash := 0, false
	for _, c := range line {
		switch c {
		case '|':
			pipes++
		case '-':
			dash = true
		case ':', ' ', '\t', '\r', '\v', '\f':
		case '>', '*', '+', '.', ')', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9': // quotes and lists around it
		default:
			return 0
		}
	}
	if pipes == 0 || !dash {
		return 0
	}
	return pipes + 1
}
