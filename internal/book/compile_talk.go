package book

// commandWords are the commands that the conversation knows.
var commandWords = []string{
	"repeat", "back", "why", "others", "next", "fixed", "start-again", "help",
	"amounts", "advise", "not-sure", "skip", "yes", "no", "safe",
	"started", "step-done", "is-it-ready", "plan", "shorter", "timers", "how", "upcoming", "stop-build", "resume-build",
	"trouble", "slower", "faster", "louder", "quieter", "hush",
}

func (c *compiler) compileSafety(f *rawFile) {
	for i := range f.Emergencies {
		raw := &f.Emergencies[i]
		c.unique("emergency", raw.ID, '-')
		c.book.Emergencies = append(c.book.Emergencies, Emergency{
			ID: raw.ID.s, Title: raw.Title.s, Say: raw.Say.s, Do: texts(raw.Do), Call: raw.Call.s,
			Source: raw.Source.s, Ask: raw.Ask.s, Sayings: texts(raw.Sayings),
			Certain: c.patterns(raw.Certain), Maybe: c.patterns(raw.Maybe), Harms: groups(raw.Harms),
			Spreads: c.word(raw.Spreads, "whether it spreads", []string{"yes", "no"}) == "yes", Place: c.src.at(raw.At),
		})
	}
}

func (c *compiler) patterns(raw []rawPattern) []Pattern {
	var list []Pattern
	for _, r := range raw {
		p := Pattern{Unless: texts(r.Unless)}
		p.All = groups(r.All)
		if len(p.All) == 0 {
			c.fault(r.At, "", "a pattern without words would be heard in everything")
			continue
		}
		list = append(list, p)
	}
	return list
}

// groups leaves empty groups out.
func groups(raw [][]text) [][]string {
	var list [][]string
	for _, group := range raw {
		if words := texts(group); len(words) > 0 {
			list = append(list, words)
		}
	}
	return list
}

func (c *compiler) compileTalk(f *rawFile) {
	for _, raw := range f.Elsewhere {
		c.unique("problem", raw.ID, '-')
		c.book.Elsewhere = append(c.book.Elsewhere, Elsewhere{
			ID: raw.ID.s, Title: raw.Title.s, Say: raw.Say.s, Sayings: texts(raw.Sayings),
			Certain: c.patterns(raw.Certain), Lifts: texts(raw.Lifts), Bodies: bodies(raw.Bodies),
		})
	}
	c.book.ShopTalk = append(c.book.ShopTalk, texts(f.ShopTalk)...)
	c.book.Harmless = append(c.book.Harmless, texts(f.Harmless)...)
	for _, raw := range f.Commands {
		c.unique("command", raw.ID, '-')
		c.word(raw.ID, "a command", commandWords)
		c.book.Commands = append(c.book.Commands, Command{raw.ID.s, texts(raw.Says)})
	}
}

func bodies(raw rawBodies) *Bodies {
	if raw.At == nil {
		return nil
	}
	return &Bodies{
		Sets: texts(raw.Sets), Scalds: texts(raw.Scalds), Parts: texts(raw.Parts), Features: texts(raw.Features),
		Beings: texts(raw.Beings), Players: texts(raw.Players), Whose: texts(raw.Whose), Acts: texts(raw.Acts),
		Made: texts(raw.Made), Wares: texts(raw.Wares), States: texts(raw.States), Mishaps: texts(raw.Mishaps),
		Worn: texts(raw.Worn), Turns: texts(raw.Turns),
	}
}
