package voice

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// smallDictionary is one in the form of the acoustic models: some lines of the
// CMU Pronouncing Dictionary.
func smallDictionary(t testing.TB) *Dictionary {
	t.Helper()
	file := filepath.Join(t.TempDir(), "words")
	text := "a AH\na(2) EY\ncling K L IH NG\ncrack K R AE K\ncup K AH P\nfilm F IH L M\nmelt M EH L T\nsmooth S M UW DH\nstep S T EH P\nwall W AO L\npowder P AW D ER\nsponge S P AH N JH\n"
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	d, err := ReadDictionary(file)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// Pronunciations of the derived words are those of the CMU Pronouncing
// Dictionary where it has them (cracked, walls, sponges, melted, stepped), the
// others from memory.
func TestSay(t *testing.T) {
	d := smallDictionary(t)
	for word, want := range map[string][]string{
		"a": {"AH", "EY"}, "wall": {"W AO L"}, "walls": {"W AO L Z"}, "cups": {"K AH P S"}, "sponges": {"S P AH N JH IH Z"},
		"cracked": {"K R AE K T"}, "melted": {"M EH L T IH D"}, "powdered": {"P AW D ER D"}, "stepped": {"S T EH P T"}, "cracking": {"K R AE K IH NG"},
		"clingfilm": {"K L IH NG F IH L M"}, "wall's": {"W AO L Z"}, "unpowdered": nil, "remelt": {"R IY M EH L T"}, "xyzzy": nil, "": nil,
		"sorbitol": {"S AO R B AH T AO L", "S AO R B IH T AA L"}, "glycerin": {"G L IH S ER AH N"},
	} {
		if got := d.Say(word); !slices.Equal(got, want) {
			t.Errorf("%q is said %q, want %q", word, got, want)
		}
	}
	if got := d.sayable([]string{"the wall", "wall", "xyzzy wall", "cracked wall"}); !slices.Equal(got, []string{"wall", "cracked wall"}) {
		t.Errorf("sayable are %q", got)
	}
}

// Our own words are in phones that the acoustic model has.
func TestOurWords(t *testing.T) {
	for _, ways := range smallDictionary(t).ours {
		for _, way := range ways {
			for _, p := range strings.Fields(way) {
				if !slices.Contains(phones, p) {
					t.Errorf("%q has %s, which is no phone", way, p)
				}
			}
		}
	}
}

func TestNearest(t *testing.T) {
	d := smallDictionary(t)
	got := nearest("cup", Expected{}, [][]string{{"cup", "wall", "cups", "powder"}, {"cups", "crack"}}, d)
	if len(got) != 4 || got[0] != "cups" {
		t.Errorf("nearest to cup are %q", got)
	}
	e := Expected{Means: func(text string) string { return map[string]string{"cup": "vessel", "cups": "vessel"}[text] }}
	if got := nearest("cup", e, [][]string{{"cup", "wall", "cups", "powder"}}, d); len(got) != 2 {
		t.Errorf("nearest to cup that mean something else are %q", got)
	}
}
