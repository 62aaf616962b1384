package book

import "gopkg.in/yaml.v3"

type rawGuide struct {
	At         *yaml.Node
	Step       text            `yaml:"step,required"`
	Order      text            `yaml:"order,required"`
	After      []text          `yaml:"after"`
	OnlyIf     text            `yaml:"only_if"`
	Hands      rawRange        `yaml:"hands,required"`
	Wait       rawRange        `yaml:"wait"`
	WaitSum    text            `yaml:"wait_sum"`
	OtherTimes []rawOtherTimes `yaml:"other_times"`
	Asks       []text          `yaml:"asks"`
	Needs      []text          `yaml:"needs"`
	Do         []rawDoing      `yaml:"do,required"`
	Brief      text            `yaml:"brief,required"`
	Never      []text          `yaml:"never"`
	Look       text            `yaml:"look,required"`
	Check      text            `yaml:"check"`
	Verdicts   []rawVerdict    `yaml:"verdicts"`
	Starts     text            `yaml:"starts"`
	Timers     []rawStepTimer  `yaml:"timers"`
	Cautions   []text          `yaml:"cautions"`
	Amounts    []text          `yaml:"amounts"`
	Keeps      text            `yaml:"keeps"`
	Source     text            `yaml:"source"`
}

type rawRange struct {
	At     *yaml.Node
	From   number `yaml:"from,required"`
	Mostly number `yaml:"mostly,required"`
	To     number `yaml:"to,required"`
}

type rawOtherTimes struct {
	At      *yaml.Node
	When    text     `yaml:"when,required"`
	Hands   rawRange `yaml:"hands"`
	Wait    rawRange `yaml:"wait"`
	Because text     `yaml:"because"`
}

type rawDoing struct {
	At   *yaml.Node
	Say  text `yaml:"say,required"`
	When text `yaml:"when"`
}

type rawVerdict struct {
	At      *yaml.Node
	When    text   `yaml:"when,required"`
	Is      text   `yaml:"is,required"`
	Minutes number `yaml:"minutes"`
	Problem text   `yaml:"problem"`
	Say     text   `yaml:"say,required"`
}

type rawStepTimer struct {
	At      *yaml.Node
	Name    text   `yaml:"name,required"`
	From    text   `yaml:"from,required"`
	Minutes number `yaml:"minutes,required"`
	Warn    number `yaml:"warn"`
	Warning text   `yaml:"warning"`
	Say     text   `yaml:"say,required"`
	When    text   `yaml:"when"`
}

type rawShorter struct {
	At     *yaml.Node
	ID     text          `yaml:"id,required"`
	Title  text          `yaml:"title,required"`
	Say    text          `yaml:"say,required"`
	Costs  text          `yaml:"costs,required"`
	Sets   map[text]text `yaml:"sets,required"`
	Before text          `yaml:"before,required"`
	OnlyIf text          `yaml:"only_if"`
}
