package journal

import (
	"fmt"
	"strings"
	"time"

	"pgregory.net/rapid"

	"sparehand/internal/talk"
)

// anyText makes words with the signs that files and sheets stumble over.
var anyText = rapid.Custom(func(t *rapid.T) string {
	parts := rapid.SliceOfN(rapid.OneOf(
		rapid.SampledFrom([]string{"", "=", "+1", "-", "@sum", "'", "''=", "\t", "\n", "\r\n", "\r", `"`, `""`, ",", ";", "\x00", "\xff", "\u2028", "<&>", "ferryman", "½", "\\", `\.`, " ", "\ufeff"}),
		rapid.String(),
	), 0, 4).Draw(t, "parts")
	return strings.Join(parts, "")
})

var anyTime = rapid.Custom(func(t *rapid.T) time.Time {
	zone := time.FixedZone("", rapid.IntRange(-12, 14).Draw(t, "zone")*3600)
	return time.Unix(rapid.Int64Range(-1e10, 1e11).Draw(t, "s"), rapid.Int64Range(0, 999999999).Draw(t, "ns")).In(zone)
})

var anyNumber = rapid.OneOf(rapid.Just[*float64](nil), rapid.Ptr(rapid.Float64Range(-1e9, 1e9), false))

func anyNote(id, of string) *rapid.Generator[talk.Note] {
	return rapid.Custom(func(t *rapid.T) talk.Note {
		word := func(name string) string { return anyText.Draw(t, name) }
		count := func(name string) int { return rapid.IntRange(0, 1000).Draw(t, name) }
		n := talk.Note{
			ID: id, Talk: of, Number: count("number"), Mould: count("mould"), Batch: count("batch"),
			Kind: rapid.SampledFrom([]string{talk.NoteMould, talk.NoteBatch, talk.NotePiece, talk.NoteDiagnosis}).Draw(t, "kind"),
			Name: word("name"), Label: word("label"), Place: word("place"), Recipe: word("recipe"), Outcome: word("outcome"),
			Problem: word("problem"), Cause: word("cause"), Remedy: word("remedy"), Helped: rapid.Bool().Draw(t, "helped"),
			At: anyTime.Draw(t, "at"), RoomC: anyNumber.Draw(t, "room"), Humidity: anyNumber.Draw(t, "humidity"), WornFor: anyNumber.Draw(t, "worn"),
		}
		if rapid.Bool().Draw(t, "copy") {
			n.For = anyTime.Draw(t, "for")
		}
		for range rapid.IntRange(0, 2).Draw(t, "parts") {
			n.Parts = append(n.Parts, talk.NotePart{Material: word("material"), Grams: rapid.Float64Range(0, 1e6).Draw(t, "grams")})
		}
		for i := range rapid.IntRange(0, 3).Draw(t, "facts") {
			if n.Facts == nil {
				n.Facts = map[string]any{}
			}
			n.Facts[fmt.Sprint("fact_", i)] = rapid.OneOf(
				rapid.Just[any](true), rapid.Just[any](7), rapid.Just[any](21.5), rapid.Map(anyText, func(s string) any { return s }),
			).Draw(t, "fact")
		}
		return n
	})
}

// fill makes a store of a few talks with notes.
func fill(t *rapid.T, j *Journal) {
	for i := range rapid.IntRange(0, 3).Draw(t, "talks") {
		id := fmt.Sprintf("t%d-%s", i, rapid.StringMatching(`[a-z½"', ]{0,5}`).Draw(t, "id"))
		ok(t, j.Begin(t.Context(), id, anyTime.Draw(t, "begun")))
		for n := range rapid.IntRange(0, 3).Draw(t, "turns") {
			event, err := compact(map[string]string{"text": anyText.Draw(t, "said")})
			ok(t, err)
			line := Line{n + 1, fmt.Sprint("r", n), rapid.Uint64().Draw(t, "asks"), anyTime.Draw(t, "at"), anyText.Draw(t, "say"), anyText.Draw(t, "title"), event}
			var due time.Time
			if rapid.Bool().Draw(t, "is due") {
				due = anyTime.Draw(t, "due")
			}
			var notes []talk.Note
			for k := range rapid.IntRange(0, 2).Draw(t, "notes") {
				notes = append(notes, anyNote(fmt.Sprint(id, "/", k), id).Draw(t, "note"))
			}
			ok(t, j.Append(t.Context(), id, line, due, notes))
			if len(notes) > 0 && rapid.Bool().Draw(t, "forgets") {
				ok(t, j.Forget(t.Context(), notes[0].ID))
			}
		}
	}
	for _, kind := range []string{"mould", "batch"} {
		for range rapid.IntRange(0, 3).Draw(t, "numbers") {
			_, err := j.NextNumber(t.Context(), kind)
			ok(t, err)
		}
	}
}
