package book

import "gopkg.in/yaml.v3"

// The raw types are the YAML as written: one Go field a key. They are checked
// and turned into the Book's types by the files named compile_*.go.

type rawFile struct {
	At          *yaml.Node
	Stage       text           `yaml:"stage,required"`
	Steps       []rawStep      `yaml:"steps"`
	Unmade      text           `yaml:"unmade"`
	Facts       []rawFact      `yaml:"facts"`
	Problems    []rawProblem   `yaml:"problems"`
	Guides      []rawGuide     `yaml:"guides"`
	Shorter     []rawShorter   `yaml:"shorter"`
	Adds        []rawAdd       `yaml:"adds"`
	Cautions    []rawCaution   `yaml:"cautions"`
	Materials   []rawMaterial  `yaml:"materials"`
	Recipes     []rawRecipe    `yaml:"recipes"`
	Amounts     []rawAmount    `yaml:"amounts"`
	Emergencies []rawEmergency `yaml:"emergencies"`
	Elsewhere   []rawElsewhere `yaml:"elsewhere"`
	ShopTalk    []text         `yaml:"shop_talk"`
	Harmless    []text         `yaml:"harmless"`
	Commands    []rawCommand   `yaml:"commands"`
	PlainWords  []text         `yaml:"plain_words"`
	Cases       []rawCase      `yaml:"cases"`
}

type rawStep struct {
	At     *yaml.Node
	ID     text   `yaml:"id,required"`
	Title  text   `yaml:"title,required"`
	Least  number `yaml:"least,required"`
	Waits  text   `yaml:"waits"`
	Says   []text `yaml:"says"`
	Source text   `yaml:"source"`
}

type rawFact struct {
	At         *yaml.Node
	ID         text        `yaml:"id,required"`
	Kind       text        `yaml:"kind,required"`
	Ask        text        `yaml:"ask,required"`
	HowToCheck text        `yaml:"how_to_check,required"`
	Why        text        `yaml:"why,required"`
	Effort     text        `yaml:"effort,required"`
	Options    []rawOption `yaml:"options"`
	Yes        []text      `yaml:"yes"`
	No         []text      `yaml:"no"`
	Unit       text        `yaml:"unit"`
	From       number      `yaml:"from"`
	To         number      `yaml:"to"`
	Says       []text      `yaml:"says"`
	OnlyIf     text        `yaml:"only_if"`
	Follows    []rawFollow `yaml:"follows"`
	Usual      rawUsual    `yaml:"usual"`
	Ways       []text      `yaml:"ways"`
	OffBy      text        `yaml:"off_by"`
}

type rawUsual struct {
	At     *yaml.Node
	Value  text `yaml:"value,required"`
	From   text `yaml:"from"`
	To     text `yaml:"to"`
	Text   text `yaml:"text,required"`
	Better text `yaml:"better"`
	Source text `yaml:"source"`
}

type rawOption struct {
	At    *yaml.Node
	Value text   `yaml:"value,required"`
	Label text   `yaml:"label,required"`
	Says  []text `yaml:"says"`
}

type rawFollow struct {
	At    *yaml.Node
	When  text `yaml:"when,required"`
	Value text `yaml:"value,required"`
}

type rawProblem struct {
	At       *yaml.Node
	ID       text        `yaml:"id,required"`
	Title    text        `yaml:"title,required"`
	Meaning  text        `yaml:"meaning,required"`
	Step     text        `yaml:"step"`
	First    text        `yaml:"first"`
	Sayings  []text      `yaml:"sayings,required"`
	Cautions []text      `yaml:"cautions"`
	Causes   []rawCause  `yaml:"causes,required"`
	Hurry    rawHurry    `yaml:"hurry"`
	Fallback rawFallback `yaml:"fallback,required"`
}

type rawHurry struct {
	At   *yaml.Node
	Save text `yaml:"save"`
	Hide text `yaml:"hide"`
	Drop text `yaml:"drop,required"`
}

// rawAdd is what a maker adds to a problem that stands in another file.
type rawAdd struct {
	At      *yaml.Node
	To      text       `yaml:"to,required"`
	Sayings []text     `yaml:"sayings"`
	Causes  []rawCause `yaml:"causes"`
}

type rawFallback struct {
	At   *yaml.Node
	Try  []text `yaml:"try,required"`
	Seek text   `yaml:"seek,required"`
}

type rawCause struct {
	At       *yaml.Node
	ID       text        `yaml:"id,required"`
	Title    text        `yaml:"title,required"`
	Why      text        `yaml:"why,required"`
	Often    text        `yaml:"often,required"`
	Began    text        `yaml:"began"`
	See      text        `yaml:"see"`
	Signs    []rawSign   `yaml:"signs"`
	Remedies []rawRemedy `yaml:"remedies"`
	Cautions []text      `yaml:"cautions"`
	Sources  []text      `yaml:"sources,required"`
}

type rawSign struct {
	At      *yaml.Node
	When    text `yaml:"when,required"`
	Points  text `yaml:"points,required"`
	Because text `yaml:"because"`
}

type rawRemedy struct {
	At        *yaml.Node
	ID        text           `yaml:"id,required"`
	Say       text           `yaml:"say,required"`
	Now       []text         `yaml:"now,required"`
	NextTime  []text         `yaml:"next_time,required"`
	Saves     text           `yaml:"saves,required"`
	Minutes   number         `yaml:"minutes,required"`
	Again     text           `yaml:"again"`
	Works     text           `yaml:"works,required"`
	OnlyIf    text           `yaml:"only_if"`
	Amounts   []text         `yaml:"amounts"`
	Cautions  []text         `yaml:"cautions"`
	AlsoHelps []rawAlsoHelps `yaml:"also_helps"`
}

type rawAlsoHelps struct {
	At    *yaml.Node
	Cause text `yaml:"cause,required"`
	Works text `yaml:"works,required"`
}

type rawCaution struct {
	At     *yaml.Node
	ID     text `yaml:"id,required"`
	Level  text `yaml:"level,required"`
	Text   text `yaml:"text,required"`
	Source text `yaml:"source,required"`
}

type rawMaterial struct {
	At      *yaml.Node
	ID      text   `yaml:"id,required"`
	Title   text   `yaml:"title,required"`
	Density number `yaml:"density,required"`
	Scooped number `yaml:"scooped"`
	Doubt   number `yaml:"doubt"`
	Holds   text   `yaml:"holds"`
	Packs   []text `yaml:"packs"`
	Pack    text   `yaml:"pack"`
	Price   text   `yaml:"price"`
	Have    text   `yaml:"have"`
	Instead []text `yaml:"instead"`
	Says    []text `yaml:"says"`
	Source  text   `yaml:"source"`
}

type rawRecipe struct {
	At      *yaml.Node
	ID      text          `yaml:"id,required"`
	Title   text          `yaml:"title,required"`
	GoodFor text          `yaml:"good_for,required"`
	NotFor  text          `yaml:"not_for,required"`
	Parts   []rawRecipeOf `yaml:"parts,required"`
	Notes   []text        `yaml:"notes"`
	Source  text          `yaml:"source,required"`
}

type rawRecipeOf struct {
	At       *yaml.Node
	Material text   `yaml:"material,required"`
	Parts    number `yaml:"parts,required"`
}

type rawAmount struct {
	At       *yaml.Node
	ID       text      `yaml:"id,required"`
	Title    text      `yaml:"title,required"`
	Says     []text    `yaml:"says"`
	Say      text      `yaml:"say"`
	Parts    []rawPart `yaml:"parts"`
	Mix      rawMix    `yaml:"mix"`
	Holds    rawHolds  `yaml:"holds"`
	Buys     []text    `yaml:"buys"`
	Warn     []rawWarn `yaml:"warn"`
	Notes    []text    `yaml:"notes"`
	Cautions []text    `yaml:"cautions"`
	Picture  text      `yaml:"picture"`
	OnlyIf   text      `yaml:"only_if"`
	Source   text      `yaml:"source"`
}

type rawWarn struct {
	At    *yaml.Node
	Part  text   `yaml:"part,required"`
	Above number `yaml:"above"`
	Below number `yaml:"below"`
	Text  text   `yaml:"text,required"`
}

type rawPart struct {
	At       *yaml.Node
	Name     text   `yaml:"name,required"`
	Of       text   `yaml:"of,required"`
	From     text   `yaml:"from"`
	To       text   `yaml:"to"`
	Unit     text   `yaml:"unit,required"`
	Density  number `yaml:"density"`
	Ml       text   `yaml:"ml"`
	G        text   `yaml:"g"`
	Material text   `yaml:"material"`
}

type rawMix struct {
	At     *yaml.Node
	Recipe text          `yaml:"recipe,required"`
	Ml     text          `yaml:"ml,required"`
	G      text          `yaml:"g"`
	Have   map[text]text `yaml:"have"`
	Least  rawLeast      `yaml:"least"`
	Own    rawOwn        `yaml:"own"`
}

type rawLeast struct {
	At   *yaml.Node
	Mix  text `yaml:"mix,required"`
	Text text `yaml:"text,required"`
}

type rawOwn struct {
	At         *yaml.Node
	Bloom      text `yaml:"bloom,required"`
	WrittenFor text `yaml:"written_for,required"`
	Syrup      text `yaml:"syrup,required"`
}

type rawWater struct {
	At     *yaml.Node
	Added  text `yaml:"added,required"`
	Before text `yaml:"before,required"`
	After  text `yaml:"after,required"`
	Mass   text `yaml:"mass,required"`
}

type rawHolds struct {
	At        *yaml.Node
	Recipe    text     `yaml:"recipe,required"`
	Made      text     `yaml:"made,required"`
	Carried   text     `yaml:"carried,required"`
	Worn      text     `yaml:"worn,required"`
	Tolerance text     `yaml:"tolerance,required"`
	Own       rawOwn   `yaml:"own"`
	Water     rawWater `yaml:"water"`
}

type rawEmergency struct {
	At      *yaml.Node
	ID      text         `yaml:"id,required"`
	Title   text         `yaml:"title,required"`
	Say     text         `yaml:"say,required"`
	Do      []text       `yaml:"do,required"`
	Call    text         `yaml:"call,required"`
	Source  text         `yaml:"source,required"`
	Ask     text         `yaml:"ask,required"`
	Certain []rawPattern `yaml:"certain,required"`
	Maybe   []rawPattern `yaml:"maybe"`
	Harms   [][]text     `yaml:"harms"`
	Spreads text         `yaml:"spreads"`
	Sayings []text       `yaml:"sayings,required"`
}

type rawPattern struct {
	At     *yaml.Node
	All    [][]text `yaml:"all,required"`
	Unless []text   `yaml:"unless"`
}

type rawElsewhere struct {
	At      *yaml.Node
	ID      text         `yaml:"id,required"`
	Title   text         `yaml:"title,required"`
	Say     text         `yaml:"say"`
	Sayings []text       `yaml:"sayings,required"`
	Certain []rawPattern `yaml:"certain"`
	Lifts   []text       `yaml:"lifts"`
	Bodies  rawBodies    `yaml:"bodies"`
}

type rawBodies struct {
	At       *yaml.Node
	Sets     []text `yaml:"sets,required"`
	Scalds   []text `yaml:"scalds,required"`
	Parts    []text `yaml:"parts,required"`
	Features []text `yaml:"features,required"`
	Beings   []text `yaml:"beings,required"`
	Players  []text `yaml:"players,required"`
	Whose    []text `yaml:"whose,required"`
	Acts     []text `yaml:"acts,required"`
	Made     []text `yaml:"made,required"`
	Wares    []text `yaml:"wares,required"`
	States   []text `yaml:"states,required"`
	Mishaps  []text `yaml:"mishaps,required"`
	Worn     []text `yaml:"worn,required"`
	Turns    []text `yaml:"turns,required"`
}

type rawCommand struct {
	At   *yaml.Node
	ID   text   `yaml:"id,required"`
	Says []text `yaml:"says,required"`
}

type rawCase struct {
	At        *yaml.Node
	Name      text          `yaml:"name,required"`
	Say       []text        `yaml:"say,required"`
	Answers   map[text]text `yaml:"answers"`
	Otherwise text          `yaml:"otherwise"`
	Then      []text        `yaml:"then"`
	Expect    rawExpect     `yaml:"expect,required"`
}

type rawExpect struct {
	At        *yaml.Node
	Problem   text          `yaml:"problem"`
	Cause     text          `yaml:"cause"`
	Causes    []text        `yaml:"causes"`
	Remedy    text          `yaml:"remedy"`
	Cautions  []text        `yaml:"cautions"`
	Emergency text          `yaml:"emergency"`
	Step      text          `yaml:"step"`
	Facts     map[text]text `yaml:"facts"`
	Amounts   map[text]text `yaml:"amounts"`
	Asks      text          `yaml:"asks"`
	Says      []text        `yaml:"says"`
	Ends      text          `yaml:"ends"`
	Questions number        `yaml:"questions"`
}
