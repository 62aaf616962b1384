package browsertest

import (
	"fmt"
	"testing"
)

// The page's own small functions, run in the browser where they are used.
func TestPageWording(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	for _, c := range []struct{ module, call, want string }{
		{"wording", `count(2.5)`, "2½"},
		{"wording", `count(0.25)`, "¼"},
		{"wording", `count(3)`, "3"},
		{"wording", `count(2.99)`, "3"},
		{"wording", `count(0)`, "0"},
		{"wording", `amount(0)`, "under ½"},
		{"wording", `amount(2.5)`, "2.5"},
		{"wording", `amount(1230)`, "1230"},
		{"wording", `percent(0.623)`, "62 %"},
		{"wording", `percent(0.001)`, "under 1 %"},
		{"wording", `percent(0.9999)`, "over 99 %"},
		{"wording", `minutes(0.5)`, "under a minute"},
		{"wording", `minutes(1)`, "about 1 minute"},
		{"wording", `minutes(90)`, "about 90 minutes"},
		{"wording", `minutes(150)`, "about 2½ hours"},
		{"wording", `minutes(2880)`, "about 2 days"},
		{"wording", `withUnit("30", "mm")`, "30 mm"},
		{"wording", `withUnit("1 1/2", "mm")`, "1 1/2 mm"},
		{"wording", `withUnit("20", "min")`, "20 minutes"},
		{"wording", `withUnit("40", "%")`, "40 percent"},
		{"wording", `withUnit("2 inches", "mm")`, "2 inches"},
		{"wording", `withUnit("half a cup", "ml")`, "half a cup"},
		{"wording", `withUnit("3", "")`, "3"},
		{"spoken", `unsaid("Never heat it dry. Press clay on the leak. Where is it?", ["Never heat it dry, it scalds.", "Where is it?"])`, "Press clay on the leak."},
		{"spoken", `unsaid("Where is it? Under the wall or over the top?", ["Where is it?"], [{label: "under the wall"}, {label: "over the top"}])`, ""},
		{"spoken", `unsaid("Is it 2.5 mm thick? It must be.", ["Is it 2.5 mm thick?"])`, "It must be."},
		{"spoken", `String(holds("Press the wall.", "press the wall"))`, "true"},
		{"spoken", `String(holds("Press the walls.", "press the wall"))`, "false"},
	} {
		var got string
		s.eval(fmt.Sprintf(`import("/js/%s.js").then(m => { const { %s } = m; return %s; })`, c.module, exports(c.module), c.call), &got)
		if got != c.want {
			t.Errorf("%s gives %q, want %q", c.call, got, c.want)
		}
	}
}

func exports(module string) string {
	if module == "spoken" {
		return "unsaid, holds"
	}
	return "count, amount, percent, minutes, withUnit"
}

// The pauses between tries double from half a second to half a minute, and
// chance takes away no more than half of one.
func TestPausesBeforeComingBack(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), laptop, "light")
	var longest, shortest []float64
	s.eval(`import("/js/connect.js").then(m => [0,1,2,3,4,5,6,7].map(n => m.pause(n, () => 1)))`, &longest)
	s.eval(`import("/js/connect.js").then(m => [0,1,2,3,4,5,6,7].map(n => m.pause(n, () => 0)))`, &shortest)
	for i, want := range []float64{500, 1000, 2000, 4000, 8000, 16000, 30000, 30000} {
		if longest[i] != want || shortest[i] != want/2 {
			t.Errorf("pause before try %d is %g to %g ms, want %g to %g", i, shortest[i], longest[i], want/2, want)
		}
	}
}
