package journal

import (
	"context"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"strconv"
	"strings"
	"time"

	"sparehand/internal/talk"
)

//go:embed page.html
var pageText string

var page = template.Must(template.New("page").Funcs(template.FuncMap{
	"day": func(t time.Time) string {
		if t.IsZero() {
			return ""
		}
		return t.Local().Format("2 Jan 2006")
	},
	"clock": func(t time.Time) string { return t.Format(time.RFC3339) },
	"number": func(n int) string {
		if n == 0 {
			return ""
		}
		return strconv.Itoa(n)
	},
	"measured": func(n *float64, unit string) string {
		if n == nil {
			return ""
		}
		return figure(*n) + unit
	},
	"grams": func(n float64) string { return figure(n) + " g" },
	"words": func(id string) string { return strings.ReplaceAll(id, "-", " ") },
}).Parse(pageText))

func figure(n float64) string { return strconv.FormatFloat(n, 'f', -1, 64) }

// Page writes the notebook as one page of HTML to read and to print: moulds,
// batches, pieces and diagnoses, the newest first. It holds all it needs and no
// scripts; days are those of the server's clock.
func (j *Journal) Page(ctx context.Context, w io.Writer) error {
	notes, err := j.Notes(ctx, Query{})
	if err != nil {
		return err
	}
	of := map[string][]talk.Note{}
	for _, n := range notes {
		of[n.Kind] = append(of[n.Kind], n)
	}
	if err := page.Execute(w, of); err != nil {
		return fmt.Errorf("the notebook's page can't be written: %w", err)
	}
	return nil
}
