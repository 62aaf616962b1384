package talk

import (
	"time"

	"sparehand/internal/draw"
)

// Reply is one answer of the assistant: say is spoken, the rest is shown.
// Its JSON is a contract: fields are added, never renamed or removed.
type Reply struct {
	Say       string         `json:"say"`       // one or two short sentences
	Emergency string         `json:"emergency"` // id, or ""
	Problem   string         `json:"problem"`   // id, or ""
	Done      bool           `json:"done"`
	Question  *Question      `json:"question"` // null when nothing is asked
	Causes    []CauseShown   `json:"causes"`   // likeliest first
	Remedies  []RemedyShown  `json:"remedies"` // in the order to try
	Amounts   []AmountShown  `json:"amounts"`
	Cautions  []CautionShown `json:"cautions"` // stop, care, note in this order
	Facts     map[string]any `json:"facts"`    // numbers in base units
	Title     string         `json:"title"`    // of the card: the problem's or emergency's name
	Show      []string       `json:"show"`     // paragraphs for the card beyond say
	Heard     string         `json:"heard"`    // what was understood, in plain words
	Changed   string         `json:"changed"`  // what the last words changed in the advice, or ""
	Told      []ToldShown    `json:"told"`     // what the assistant has been told, correctable
	Time      *TimeShown     `json:"time"`     // null where the call was not told
	Pictures  []draw.Picture `json:"pictures"` // with the amounts
	Phase     string         `json:"phase"`    // listening, choosing, asking, advising, building, emergency, closed
	At        time.Time      `json:"at"`       // the clock's reading that the reply is by
	Build     *BuildShown    `json:"build"`    // null where no build is on
	Timers    []TimerShown   `json:"timers"`   // those that run; first the one that rings now
	Plan      *PlanShown     `json:"plan"`     // null where no build is on
	Notes     []Note         `json:"notes"`    // of the notebook, where they were asked for
	Aloud     string         `json:"aloud"`    // what is to be spoken: say, in words
	Voice     *VoiceShown    `json:"voice"`    // null where nothing was spoken
	Manner    string         `json:"manner"`   // how it shall be spoken from now on: slower, faster, louder, quieter, hush; or ""
}

// VoiceShown is what was made out of an utterance that was spoken.
type VoiceShown struct {
	Words string  `json:"words"` // "" where nothing was
	Sure  float64 `json:"sure"`  // 0..1
}

// Question is what is asked now.
type Question struct {
	Fact       string        `json:"fact"` // the fact's name, or "problem", "emergency", "meaning", "did_it_work"
	Text       string        `json:"text"`
	Kind       string        `json:"kind"`    // choice, number or yesno
	Options    []OptionShown `json:"options"` // empty for a number
	Unit       string        `json:"unit"`
	HowToCheck string        `json:"how_to_check"`
	Why        string        `json:"why"`
}

// OptionShown is an answer that can be picked by its number.
type OptionShown struct {
	N     int    `json:"n"` // 1-based
	Value string `json:"value"`
	Label string `json:"label"`
}

// CauseShown is a cause with its share of belief and the reasons for it.
type CauseShown struct {
	ID      string   `json:"id"`
	Title   string   `json:"title"`
	Share   float64  `json:"share"` // 0..1
	Because []string `json:"because"`
	Found   int      `json:"found"` // how often this workshop found it
	Began   string   `json:"began"` // the step at which it was brought about: "thinning the skirt"
	See     string   `json:"see"`   // id of the problem's page that treats it, or ""
}

// TimeShown is the time until the call, all in minutes. Save, hide and drop say
// what can be done where no remedy fits.
type TimeShown struct {
	Left   float64 `json:"left"`
	Needed float64 `json:"needed"` // by the remedy offered
	After  float64 `json:"after"`  // by the rest of the job, at the very least
	Fits   bool    `json:"fits"`
	Save   string  `json:"save"`
	Hide   string  `json:"hide"`
	Drop   string  `json:"drop"`
}

// RemedyShown is a remedy as it is offered.
type RemedyShown struct {
	ID       string   `json:"id"`
	Cause    string   `json:"cause"`
	Say      string   `json:"say"` // the remedy in one sentence
	Now      []string `json:"now"`
	Saves    string   `json:"saves"` // yes, partly or no
	Minutes  float64  `json:"minutes"`
	NextTime []string `json:"next_time"`
	Fits     bool     `json:"fits"` // into the time left, where that was told
}

// AmountShown is one line of a sum, such as the water of a plaster mix.
type AmountShown struct {
	Name        string         `json:"name"`
	Grams       float64        `json:"grams"`
	Millilitres float64        `json:"millilitres"`
	Measures    []MeasureShown `json:"measures"`
	For         string         `json:"for"`     // the sum it belongs to
	Assumes     []string       `json:"assumes"` // what the sum takes for granted
	Notes       []string       `json:"notes"`   // what goes with it
	Value       float64        `json:"value"`   // the figure, in Unit
	Unit        string         `json:"unit"`    // g, ml, mm, cm2, min, s, C, % or "" for a count
	Low         float64        `json:"low"`     // the range in which it lies, in Unit
	High        float64        `json:"high"`
	Text        string         `json:"text"`   // words that stand for the figure, or ""
	Off         float64        `json:"off"`    // percent that Measures hold more (+) or less (-)
	Narrow      string         `json:"narrow"` // which one measurement narrows the range most, or ""
}

// MeasureShown counts one measure, such as 2.5 cups.
type MeasureShown struct {
	Measure string  `json:"measure"`
	Count   float64 `json:"count"`
}

// CautionShown is a warning on the card.
type CautionShown struct {
	ID    string `json:"id"`
	Level string `json:"level"`
	Text  string `json:"text"`
}

// ToldShown is one fact the assistant holds, in words.
type ToldShown struct {
	Fact    string        `json:"fact"`
	Ask     string        `json:"ask"`
	Value   any           `json:"value"`
	Label   string        `json:"label"` // the answer in words, with its unit
	Kind    string        `json:"kind"`
	Unit    string        `json:"unit"`
	Options []OptionShown `json:"options"`
	Derived bool          `json:"derived"` // worked out from another answer
	NotSure bool          `json:"not_sure"`
}
