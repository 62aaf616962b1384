package craft

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// A Measure is a cup, spoon or cap that the maker owns.
type Measure struct {
	Name        string
	Plural      string
	Millilitres float64
	Step        float64 // the finest part the eye can fill: 1/4, 1/2 or 1; 0 means 1
}

// A Count is so many of one measure, a whole number of its steps.
type Count struct {
	Measure Measure
	Count   float64
}

// String gives "2 1/2 cups".
func (c Count) String() string {
	if c.Count > 1 && c.Measure.Plural != "" {
		return FormatCount(c.Count) + " " + c.Measure.Plural
	}
	return FormatCount(c.Count) + " " + c.Measure.Name
}

// Measured is an amount put into measures.
type Measured struct {
	Counts      []Count // one or two, the larger measure first
	Millilitres float64 // what the counts hold
	OffPercent  float64 // more (+) or less (-) than was asked for
}

const (
	closeEnough = 2.0  // percent: well inside what a level spoon can do
	tooFarOff   = 25.0 // percent: past this, measures are no help
	mostCounted = 40.0 // nobody counts further
	longestName = 60   // letters
)

// MeasureOf makes a measure of a unit of volume. Vessels of 100 ml and more
// are read to a quarter, spoons to a half (common practice, no source).
func MeasureOf(u Unit) (Measure, error) {
	ml, err := volumeOf(u)
	if err != nil {
		return Measure{}, err
	}
	return Measure{Name: u.Name, Plural: u.Plural, Millilitres: ml, Step: readTo(ml)}, nil
}

// readTo gives the finest part of a measure of ml that the eye can fill.
func readTo(ml float64) float64 {
	if ml >= 100 {
		return 0.25
	}
	return 0.5
}

// OwnMeasure makes a measure of a vessel that the maker knows to hold ml, read
// as MeasureOf says.
func OwnMeasure(name string, ml float64) (Measure, error) {
	name = strings.Join(strings.Fields(name), " ")
	if name == "" || utf8.RuneCountInString(name) > longestName {
		return Measure{}, fmt.Errorf("a measure needs a name of at most %d letters", longestName)
	}
	m := Measure{Name: name, Plural: "times the " + name, Millilitres: ml, Step: readTo(ml)}
	if err := m.check(); err != nil {
		return Measure{}, err
	}
	return m, nil
}

// Calibrate makes a measure, named "cap", of a bottle cap of which count fill
// one known unit of volume. A cap is only used whole.
func Calibrate(count float64, known Unit) (Measure, error) {
	ml, err := volumeOf(known)
	if err != nil {
		return Measure{}, err
	}
	if err := within("number of caps", count, 0.1, 1000, ""); err != nil {
		return Measure{}, err
	}
	bottleCap := Measure{Name: "cap", Plural: "caps", Millilitres: ml / count, Step: 1}
	if err := bottleCap.check(); err != nil {
		return Measure{}, err
	}
	return bottleCap, nil
}

func volumeOf(u Unit) (float64, error) {
	if u.Dimension != Volume {
		return 0, fmt.Errorf("%s is no measure of volume", u.Name)
	}
	return u.Base(1)
}

// InMeasures puts ml into at most two of the owned measures, the larger first,
// each to its step. The first holds as much as it can and the second takes
// what is left; the second is spared where one measure alone is within 2 %.
// It is an error when no measure owned comes within 25 %, or when it takes
// more than a hundred of the largest.
func InMeasures(ml float64, owned []Measure) (Measured, error) {
	if err := positive("amount to measure", ml, maxAmount, "ml"); err != nil {
		return Measured{}, err
	}
	sizes, err := bySize(owned)
	if err != nil {
		return Measured{}, err
	}
	var best Measured
	for i, m := range sizes {
		if ml > mostCounted*m.Millilitres || best.near(closeEnough) {
			break // past counting, or the largest measure that will do is found
		}
		best = closer(best, firstFrom(ml, sizes[i:]))
	}
	if !best.near(tooFarOff) {
		return Measured{}, fmt.Errorf("none of these measures gives %s ml well: weigh it, or find another measure",
			plain(Sensible(ml)))
	}
	return best, nil
}

// near says whether there are counts, and not more than percent off.
func (m Measured) near(percent float64) bool {
	return len(m.Counts) > 0 && math.Abs(m.OffPercent) <= percent
}

// firstFrom measures ml with sizes[0] and, where that is not close enough,
// with the best of the smaller sizes for what is left.
func firstFrom(ml float64, sizes []Measure) Measured {
	best := total(ml, sizes[0].steps(ml, math.Round))
	first := sizes[0].steps(ml, math.Floor)
	if first.Count == 0 {
		return best
	}
	left := ml - first.Count*first.Measure.Millilitres
	for _, second := range sizes[1:] {
		if left > mostCounted*second.Millilitres || best.near(closeEnough) {
			break
		}
		best = closer(best, total(ml, first, second.steps(left, math.Round)))
	}
	return best
}

// steps counts how often m goes into ml, to its step.
func (m Measure) steps(ml float64, round func(float64) float64) Count {
	return Count{Measure: m, Count: m.Step * round(ml/(m.Millilitres*m.Step))}
}

// total adds counts up, leaving out those of nothing.
func total(ml float64, counts ...Count) Measured {
	sum := Measured{}
	for _, c := range counts {
		if c.Count > 0 {
			sum.Counts = append(sum.Counts, c)
			sum.Millilitres += c.Count * c.Measure.Millilitres
		}
	}
	sum.OffPercent = 100 * (sum.Millilitres - ml) / ml
	return sum
}

// closer keeps a unless b has counts and is truly nearer, or as near with
// fewer of them.
func closer(a, b Measured) Measured {
	off := math.Abs(b.OffPercent) - math.Abs(a.OffPercent)
	nearer := len(a.Counts) == 0 || off < 0 || off < 1e-6 && len(b.Counts) < len(a.Counts)
	if len(b.Counts) > 0 && nearer {
		return b
	}
	return a
}

// bySize checks the measures and sorts a copy, the largest first.
func bySize(owned []Measure) ([]Measure, error) {
	if len(owned) == 0 {
		return nil, errors.New("there are no measures to measure with")
	}
	sizes := slices.Clone(owned)
	for i := range sizes {
		if sizes[i].Step == 0 {
			sizes[i].Step = 1
		}
		if err := sizes[i].check(); err != nil {
			return nil, err
		}
	}
	slices.SortStableFunc(sizes, func(a, b Measure) int { return cmp.Compare(b.Millilitres, a.Millilitres) })
	return sizes, nil
}

func (m Measure) check() error {
	if m.Step != 0.25 && m.Step != 0.5 && m.Step != 1 {
		return fmt.Errorf("the %s must be read to a quarter, a half or a whole", m.Name)
	}
	return within("size of the "+m.Name, m.Millilitres, 0.01, 1e6, "ml")
}

// FormatCount writes a count to the nearest quarter: "2 1/2", "1/4", "3".
// A count that is no count gives "".
func FormatCount(x float64) string {
	if math.IsNaN(x) || x < 0 || x > maxAmount {
		return ""
	}
	quarters := int64(math.Round(x * 4))
	whole, part := quarters/4, [...]string{"", "1/4", "1/2", "3/4"}[quarters%4]
	switch {
	case part == "":
		return strconv.FormatInt(whole, 10)
	case whole == 0:
		return part
	}
	return strconv.FormatInt(whole, 10) + " " + part
}

// Sensible rounds an amount (g or ml) to what a small scale or a kitchen scale
// can show: hundredths below 1, tenths below 10, wholes up to 1000, three
// figures above. 0 means too little to
// weigh. NaN and the infinities give 0; past a thousand million x is kept.
func Sensible(x float64) float64 {
	size := math.Abs(x)
	switch {
	case math.IsNaN(x) || math.IsInf(x, 0):
		return 0
	case size < 1:
		return math.Round(x*100) / 100
	case size < 10:
		return math.Round(x*10) / 10
	case size < 1000:
		return math.Round(x)
	case size > maxAmount:
		return x
	}
	return toStep(x, decade(size)-2, math.Round)
}

// Meaningful rounds x so that its last digit is no finer than doubt, of the
// same unit, but keeps one figure: 412.7 give or take 30 is 410. A doubt of
// nothing leaves x as it is; NaN and the infinities give 0.
func Meaningful(x, doubt float64) float64 {
	switch {
	case math.IsNaN(x) || math.IsInf(x, 0):
		return 0
	case !(doubt >= nothing) || math.Abs(x) < nothing || math.Abs(x) > maxAmount:
		return x
	}
	return toStep(x, min(decade(doubt), decade(math.Abs(x))), math.Round)
}

// SensibleSpan rounds a span for showing: its ends outward to two figures, so
// that it never promises more than was worked out, and Mid as its doubt
// allows. A span that is none gives the zero Span.
func SensibleSpan(s Span) Span {
	if s.check("span", maxAmount, "") != nil {
		return Span{}
	}
	out := Span{
		Low:  twoFigures(s.Low, math.Floor),
		Mid:  Meaningful(s.Mid, max(s.Mid-s.Low, s.High-s.Mid)),
		High: twoFigures(s.High, math.Ceil),
	}
	out.Mid = min(max(out.Mid, out.Low), out.High)
	return out
}

func twoFigures(x float64, round func(float64) float64) float64 {
	if x < nothing {
		return 0
	}
	// Not a hair more for what only the binary digits add.
	nearest := toStep(x, decade(x)-1, math.Round)
	if math.Abs(nearest-x) <= 1e-12*x {
		return nearest
	}
	return toStep(x, decade(x)-1, round)
}

// decade gives the power of ten of the first digit of x > 0.
func decade(x float64) int { return int(math.Floor(math.Log10(x))) }

// toStep rounds x to a multiple of ten to a power, exactly as written.
func toStep(x float64, power int, round func(float64) float64) float64 {
	if power >= 0 {
		unit := math.Pow10(power)
		return round(x/unit) * unit
	}
	unit := math.Pow10(-power)
	return round(x*unit) / unit
}
