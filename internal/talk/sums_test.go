package talk

import (
	"reflect"
	"strings"
	"testing"
	"time"

	"sparehand/internal/sums"
)

// amountsOf gives the grams of a reply's lines by name.
func amountsOf(r Reply) map[string]float64 {
	out := map[string]float64{}
	for _, a := range r.Amounts {
		out[a.Name] = a.Grams
	}
	return out
}

// A six by four inch tray filled an inch and a half deep holds 589.9 ml; at
// 0.925 kg of plaster a litre (absolute volumes, materials' published
// densities) and 15 % spare that is 627 g.
func TestPlasterForATray(t *testing.T) {
	r := say(assistant(t).Open(), "how much plaster do I need for a six by four inch tray, an inch and a half deep")
	if got := amountsOf(r); got["dry plaster"] != 627 || got["water"] != 439 || r.Question != nil || r.Problem != "" {
		t.Errorf("%s", asJSON(r))
	}
	if len(r.Cautions) == 0 || r.Cautions[0].Level != "stop" || strings.Index(r.Say, "skin") > strings.Index(r.Say, "630") {
		t.Errorf("the caution does not come first: %s", r.Say)
	}
}

// A missing dimension is asked for, and what is told then is enough.
func TestMissingDimensionIsAsked(t *testing.T) {
	s := assistant(t).Open()
	r := say(s, "how much plaster for a piece 110 by 80 mm")
	if r.Question == nil || r.Question.Fact != "piece_height_mm" || len(r.Amounts) > 0 {
		t.Fatalf("%s", asJSON(r))
	}
	if r = say(s, "18"); amountsOf(r)["dry plaster"] != 688 {
		t.Errorf("the unit said last goes on: %s", asJSON(r))
	}
	if r = say(s, "no wait, 20 high"); r.Question != nil || amountsOf(r)["dry plaster"] <= 688 || r.Changed == "" {
		t.Errorf("a correction: %s", asJSON(r))
	}
	if r = s.Undo(time.Time{}); amountsOf(r)["dry plaster"] != 688 {
		t.Errorf("taken back: %s", asJSON(r))
	}
}

// A sum may be asked for in the middle of a trouble, which then goes on.
func TestSumInsideATrouble(t *testing.T) {
	s := assistant(t).Open()
	before := say(s, "plaster is running out under the wall")
	r := say(s, "how much plaster for a piece 110 by 80 by 18 mm")
	if r.Problem != "dam-leaks" || amountsOf(r)["dry plaster"] != 688 || !strings.Contains(r.Say, "690 g") {
		t.Fatalf("%s", asJSON(r))
	}
	if r.Question == nil || r.Question.Fact != before.Question.Fact {
		t.Errorf("the question is lost: %s", asJSON(r))
	}
}

func TestSeveralSumsAtOnce(t *testing.T) {
	r := say(assistant(t).Open(), "how much plaster and gelatin for a piece 110 by 80 by 18 mm with sorbitol")
	got := amountsOf(r)
	if got["dry plaster"] != 688 || got["gelatin powder"] != 12 || len(r.Pictures) != 1 {
		t.Errorf("%v, %d pictures: %s", got, len(r.Pictures), r.Say)
	}
	if r = say(assistant(t).Open(), "5 barnacles 30 by 20 by 8 mm and 2 scars 100 by 20 by 6 mm, how much gelatin"); len(r.Amounts) > 0 || !strings.Contains(r.Say, "One piece at a time") {
		t.Errorf("two pieces in one line: %s", asJSON(r))
	}
}

// An ounce is a weight or a volume, and a pint American or imperial: which
// one is asked, and the sum goes on with the answer.
func TestWhichUnitIsAsked(t *testing.T) {
	s := assistant(t).Open()
	r := say(s, "I have 3 oz of glycerin, how much gelatin do I need, with sorbitol")
	if r.Question == nil || r.Question.Fact != askMeaning || len(r.Question.Options) != 2 {
		t.Fatalf("%s", asJSON(r))
	}
	if r = say(s, "by weight"); amountsOf(r)["gelatin powder"] != 43 { // 85.05 g / 2
		t.Errorf("%s", asJSON(r))
	}
	r = say(assistant(t).Open(), "how many ml in a pint")
	if r.Question == nil || len(r.Question.Options) != 2 {
		t.Errorf("which pint is not asked: %s", asJSON(r))
	}
	r = say(assistant(t).Open(), "how many ml in 3 tablespoons") // NIST Handbook 44: 14.787 ml each
	if len(r.Amounts) != 1 || r.Amounts[0].Text != "44.4 millilitres" {
		t.Errorf("%s", asJSON(r))
	}
}

// The sums explain themselves: what they take for granted, and how sure they
// are.
func TestSumsExplainThemselves(t *testing.T) {
	s := assistant(t).Open()
	say(s, "how much plaster for a piece 110 by 80 by 18 mm")
	if r := say(s, "why"); !strings.Contains(r.Say, "25 mm between the skirt and the wall") {
		t.Errorf("why: %s", r.Say)
	}
	if r := say(s, "how sure are you"); !strings.Contains(r.Say, " to ") || !strings.Contains(r.Say, "narrows it most") {
		t.Errorf("how sure: %s", r.Say)
	}
}

// Measures are asked for afterwards, by words alone.
func TestInTheMeasuresThereAre(t *testing.T) {
	s := assistant(t).Open()
	say(s, "how much gelatin for a piece 110 by 80 by 18 mm, with sorbitol")
	for words, want := range map[string]string{"in cups": "teaspoon", "in spoons please": "teaspoon", "my cap holds 7 ml": "cap"} {
		r := say(s, words)
		if len(r.Amounts) == 0 || len(r.Amounts[0].Measures) == 0 || r.Amounts[0].Measures[0].Measure != want {
			t.Errorf("%q: %s", words, asJSON(r))
		}
	}
}

// A sheet and a talk that was told the same come to the same.
func TestSheetAgreesWithTheTalk(t *testing.T) {
	a := assistant(t)
	sheet, err := a.Sheet(Asking{Words: "110 by 80 by 18 mm, 2 copies", Set: map[string]string{"recipe": "gelatin_glycerin", sums.MeasureFact: "spoons"}})
	if err != nil {
		t.Fatal(err)
	}
	s := a.Open()
	say(s, "how much gelatin for two copies, 110 by 80 by 18 mm")
	say(s, "gelatin and glycerin")
	r := say(s, "in spoons")
	if !reflect.DeepEqual(r.Amounts, sheet.Amounts) {
		t.Errorf("talk %+v\nsheet %+v", r.Amounts, sheet.Amounts)
	}
}

// What is refused stays refused, whatever sizes follow, until the maker says
// that it is a sculpt; then what was asked for is worked out.
func TestRefusalHolds(t *testing.T) {
	for _, lines := range [][]string{
		{"how much plaster for my hand", "20 by 10 by 6 cm"},
		{"how much plaster for 200 by 100 by 60 mm", "it is for my hand"},
		{"how much plaster for 200 by 100 by 60 mm", "it is for my hand", "how much"},
		{"I want to cast my hand in plaster", "how much plaster for 200 by 100 by 60 mm"},
		{"how much plaster for my hand", "plaster is running out under the wall", "how much plaster for 200 by 100 by 60 mm"},
	} {
		s := assistant(t).Open()
		var r Reply
		for _, line := range lines {
			if r = say(s, line); r.Question != nil && r.Question.Fact == askEmergency {
				r = say(s, "no")
			}
		}
		told := r.Say + strings.Join(r.Show, " ")
		if len(r.Amounts) > 0 || len(r.Pictures) > 0 || !strings.Contains(told, "Never. Plaster heats") {
			t.Errorf("%q: %s", lines, asJSON(r))
		}
		if r = say(s, "how many ml in 3 tablespoons"); r.Problem == "" && len(r.Amounts) != 1 {
			t.Errorf("%q: units are refused too: %s", lines, asJSON(r))
		}
	}
	s := assistant(t).Open()
	say(s, "how much plaster for 110 by 80 by 18 mm", "it is for my hand")
	if r := say(s, "sorry, it is clay on a plate"); amountsOf(r)["dry plaster"] != 688 {
		t.Errorf("the refusal is not lifted: %s", asJSON(r))
	}
	if _, err := assistant(t).Sheet(Asking{Words: "for my hand, 20 by 10 by 6 cm", Sums: []string{"mould-plaster"}}); err == nil {
		t.Error("a sheet is made of a hand")
	}
}
