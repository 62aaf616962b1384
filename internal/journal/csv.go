package journal

import (
	"context"
	"database/sql"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"sparehand/internal/talk"
)

// column is one column of the sheet of notes.
type column struct {
	name string
	get  func(*talk.Note) string
	set  func(*talk.Note, string) error
}

// columns are fixed; new ones come last.
var columns = []column{
	textColumn("id", func(n *talk.Note) *string { return &n.ID }),
	textColumn("kind", func(n *talk.Note) *string { return &n.Kind }),
	wholeColumn("number", func(n *talk.Note) *int { return &n.Number }),
	textColumn("name", func(n *talk.Note) *string { return &n.Name }),
	textColumn("label", func(n *talk.Note) *string { return &n.Label }),
	textColumn("talk", func(n *talk.Note) *string { return &n.Talk }),
	timeColumn("at", func(n *talk.Note) *time.Time { return &n.At }),
	timeColumn("for", func(n *talk.Note) *time.Time { return &n.For }),
	textColumn("place", func(n *talk.Note) *string { return &n.Place }),
	wholeColumn("mould", func(n *talk.Note) *int { return &n.Mould }),
	wholeColumn("batch", func(n *talk.Note) *int { return &n.Batch }),
	textColumn("recipe", func(n *talk.Note) *string { return &n.Recipe }),
	jsonColumn("parts", func(n *talk.Note) any { return &n.Parts }, func(n *talk.Note) bool { return len(n.Parts) == 0 }),
	numberColumn("room_c", func(n *talk.Note) **float64 { return &n.RoomC }),
	numberColumn("humidity", func(n *talk.Note) **float64 { return &n.Humidity }),
	numberColumn("worn_for", func(n *talk.Note) **float64 { return &n.WornFor }),
	textColumn("outcome", func(n *talk.Note) *string { return &n.Outcome }),
	textColumn("problem", func(n *talk.Note) *string { return &n.Problem }),
	textColumn("cause", func(n *talk.Note) *string { return &n.Cause }),
	textColumn("remedy", func(n *talk.Note) *string { return &n.Remedy }),
	yesNoColumn("helped", func(n *talk.Note) *bool { return &n.Helped }),
	jsonColumn("facts", func(n *talk.Note) any { return &n.Facts }, func(n *talk.Note) bool { return len(n.Facts) == 0 }),
}

func textColumn(name string, at func(*talk.Note) *string) column {
	return column{name, func(n *talk.Note) string { return *at(n) },
		func(n *talk.Note, cell string) error { *at(n) = cell; return nil }}
}

func wholeColumn(name string, at func(*talk.Note) *int) column {
	return column{name, func(n *talk.Note) string { return strconv.Itoa(*at(n)) },
		func(n *talk.Note, cell string) error {
			if cell == "" {
				return nil
			}
			number, err := strconv.Atoi(cell)
			if err != nil {
				return fmt.Errorf("%q is no whole number", cell)
			}
			*at(n) = number
			return nil
		}}
}

func numberColumn(name string, at func(*talk.Note) **float64) column {
	return column{name,
		func(n *talk.Note) string {
			if *at(n) == nil {
				return ""
			}
			return strconv.FormatFloat(**at(n), 'g', -1, 64)
		},
		func(n *talk.Note, cell string) error {
			if cell == "" {
				return nil
			}
			number, err := strconv.ParseFloat(cell, 64)
			if err != nil {
				return fmt.Errorf("%q is no number", cell)
			}
			*at(n) = &number
			return nil
		}}
}

func timeColumn(name string, at func(*talk.Note) *time.Time) column {
	return column{name,
		func(n *talk.Note) string {
			if at(n).IsZero() {
				return ""
			}
			return at(n).Format(time.RFC3339Nano)
		},
		func(n *talk.Note, cell string) (err error) {
			if cell == "" {
				return nil
			}
			if *at(n), err = time.Parse(time.RFC3339Nano, cell); err != nil {
				return fmt.Errorf("%q is no time of the form 2026-02-14T18:30:00Z", cell)
			}
			return nil
		}}
}

func yesNoColumn(name string, at func(*talk.Note) *bool) column {
	return column{name,
		func(n *talk.Note) string {
			if *at(n) {
				return "yes"
			}
			return "no"
		},
		func(n *talk.Note, cell string) error {
			switch cell {
			case "yes":
				*at(n) = true
			case "no", "":
			default:
				return fmt.Errorf("%q is not yes or no", cell)
			}
			return nil
		}}
}

func jsonColumn(name string, at func(*talk.Note) any, empty func(*talk.Note) bool) column {
	return column{name,
		func(n *talk.Note) string {
			if empty(n) {
				return ""
			}
			text, _ := compact(at(n)) // it was read from JSON
			return string(text)
		},
		func(n *talk.Note, cell string) error {
			if cell == "" {
				return nil
			}
			if err := json.Unmarshal([]byte(cell), at(n)); err != nil {
				return fmt.Errorf("%q is no JSON of it: %w", cell, err)
			}
			return nil
		}}
}

// formula is how a cell may begin that a spreadsheet would run; such a cell gets
// an apostrophe before it. So does one that begins with an apostrophe, so that
// reading can take one away.
const formula = "=+-@\t'"

func guard(cell string) string {
	if cell != "" && strings.ContainsRune(formula, rune(cell[0])) {
		return "'" + cell
	}
	return cell
}

func unguard(cell string) string {
	if len(cell) > 1 && cell[0] == '\'' && strings.ContainsRune(formula, rune(cell[1])) {
		return cell[1:]
	}
	return cell
}

func columnNames() []string {
	names := make([]string, len(columns))
	for i, c := range columns {
		names[i] = c.name
	}
	return names
}

// ExportCSV writes the notes as a sheet: a row of column names, then one row a
// note, the oldest first; RFC 4180, UTF-8. Times are RFC 3339, parts and facts
// JSON. A cell that a spreadsheet would take for a formula begins with an
// apostrophe, which Import takes away.
func (j *Journal) ExportCSV(ctx context.Context, w io.Writer) error {
	sheet := csv.NewWriter(w)
	sheet.UseCRLF = true
	var failed error
	err := j.still(ctx, func(tx *sql.Tx) error {
		if failed = sheet.Write(columnNames()); failed != nil {
			return failed
		}
		return each(ctx, tx, scanNote, func(n talk.Note) error {
			failed = sheet.Write(row(&n))
			return failed
		}, `SELECT note FROM notes ORDER BY at, id`)
	})
	if err == nil {
		sheet.Flush()
		failed = sheet.Error()
	}
	if failed != nil {
		return fmt.Errorf("the sheet can't be written: %w", failed)
	}
	return err
}

func row(n *talk.Note) []string {
	cells := make([]string, len(columns))
	for i, c := range columns {
		cells[i] = guard(c.get(n))
	}
	return cells
}
