package book

import "gopkg.in/yaml.v3"

// The raw types are the YAML as written: one Go field a key. They are checked
// and turned into the Book's types by the files named compile_*.go.

type rawFile struct {
	At          *yaml.Node
	Stage       text           `yaml:"stage,required"`
	Facts       []rawFact      `yaml:"facts"`
	Problems    []rawProblem   `yaml:"problems"`
	Cautions    []rawCaution   `yaml:"cautions"`
	Amounts     []rawAmount    `yaml:"amounts"`
	Emergencies []rawEmergency `yaml:"emergencies"`
	Elsewhere   []rawElsewhere `yaml:"elsewhere"`
	ShopTalk    []text         `yaml:"shop_talk"`
	Commands    []rawCommand   `yaml:"commands"`
	Cases       []rawCase      `yaml:"cases"`
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
	First    text        `yaml:"first"`
	Sayings  []text      `yaml:"sayings,required"`
	Cautions []text      `yaml:"cautions"`
	Causes   []rawCause  `yaml:"causes,required"`
	Fallback rawFallback `yaml:"fallback,required"`
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

type rawAmount struct {
	At      *yaml.Node
	ID      text        `yaml:"id,required"`
	Title   text        `yaml:"title,required"`
	Says    []text      `yaml:"says"`
	Needs   []text      `yaml:"needs"`
	Assumes []rawAssume `yaml:"assumes"`
	Parts   []rawPart   `yaml:"parts,required"`
	Notes   []text      `yaml:"notes"`
	OnlyIf  text        `yaml:"only_if"`
}

type rawAssume struct {
	At    *yaml.Node
	Fact  text `yaml:"fact,required"`
	Value text `yaml:"value,required"`
	Text  text `yaml:"text,required"`
}

type rawPart struct {
	At      *yaml.Node
	Name    text   `yaml:"name,required"`
	Of      text   `yaml:"of,required"`
	Unit    text   `yaml:"unit,required"`
	Density number `yaml:"density,required"`
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
	Sayings []text       `yaml:"sayings,required"`
}

type rawPattern struct {
	At     *yaml.Node
	All    [][]text `yaml:"all,required"`
	Unless []text   `yaml:"unless"`
}

type rawElsewhere struct {
	At      *yaml.Node
	ID      text   `yaml:"id,required"`
	Title   text   `yaml:"title,required"`
	Say     text   `yaml:"say"`
	Sayings []text `yaml:"sayings,required"`
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
	Facts     map[text]text `yaml:"facts"`
	Ends      text          `yaml:"ends"`
	Questions number        `yaml:"questions"`
}
