package journal

import (
	"bytes"
	"regexp"
	"strings"
	"testing"
	"time"

	"sparehand/internal/talk"
)

func pageOf(t *testing.T, j *Journal) string {
	t.Helper()
	var b bytes.Buffer
	ok(t, j.Page(t.Context(), &b))
	return b.String()
}

func TestPageToRead(t *testing.T) {
	both(t, func(t *testing.T, where string) {
		j := opened(t, where)
		if got := pageOf(t, j); !strings.Contains(got, "There are no notes yet.") || strings.Contains(got, "<table") {
			t.Errorf("the empty page is\n%s", got)
		}
		room, worn := 18.5, 210.0
		stands(t, j, 1,
			note("t/1", talk.NoteMould, func(n *talk.Note) { n.Number, n.Name, n.Label = 3, `<script>alert("rope")</script>`, "M3" }),
			note("t/2", talk.NoteBatch, func(n *talk.Note) {
				n.RoomC, n.Parts = &room, []talk.NotePart{{Material: "gelatin", Grams: 50}, {Material: "glycerol", Grams: 62.5}}
			}),
			note("t/3", talk.NotePiece, func(n *talk.Note) {
				n.Mould, n.WornFor, n.For = 3, &worn, time.Date(2026, 3, 1, 12, 0, 0, 0, time.Local)
			}),
			note("t/4", talk.NoteDiagnosis, func(n *talk.Note) { n.Problem, n.Cause, n.Helped = "tears-thin", "too-hot", true }),
		)
		got := pageOf(t, j)
		for _, want := range []string{
			"<caption>Moulds</caption>", "<caption>Batches</caption>", "<caption>Pieces</caption>", "<caption>Diagnoses</caption>",
			"&lt;script&gt;", "<td>M3</td>", "<td>gelatin 50 g, glycerol 62.5 g</td>", "<td>18.5 °C</td>", "<td>210 min</td>", "<td>1 Mar 2026</td>",
			`<th scope="row">tears thin</th><td>too hot</td><td></td><td>yes</td>`,
		} {
			if !strings.Contains(got, want) {
				t.Errorf("the page has no %s", want)
			}
		}
		// It holds all it needs: nothing that a browser would fetch or run.
		if found := regexp.MustCompile(`(?i)<script|<link|<img|<iframe|url\(|@import|\son\w+=|https?:`).FindString(got); found != "" {
			t.Errorf("the page has %s", found)
		}
	})
}
