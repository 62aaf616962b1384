package book

// mostlyHeard is how many sayings a page needs to be heard well; breadth of the
// wording decides that more than anything else.
const mostlyHeard = 80

// thinPages warns about pages that lack what the conversation needs of them.
func (l *lint) thinPages() {
	for _, p := range l.book.Problems {
		if p.Step == nil {
			l.warn(p.Place, "problem %s names no step of the job, so nothing can be said about the time left", p.ID)
		}
		if p.Hurry.Drop == "" {
			l.warn(p.Place, "problem %s has no hurry with drop: what to leave out where no fix fits into the time", p.ID)
		}
		l.thinSayings(p.Place, "problem "+p.ID, p.Sayings)
	}
	for i := range l.book.Emergencies {
		e := &l.book.Emergencies[i]
		l.thinSayings(e.Place, "emergency "+e.ID, e.Sayings)
	}
}

// thinSayings counts the sayings of a page, doubles taken as one.
func (l *lint) thinSayings(at Place, owner string, sayings []string) {
	different := map[string]bool{}
	for _, s := range sayings {
		different[plain(s)] = true
	}
	if n := len(different); n < mostlyHeard {
		l.warn(at, "%s has %d different sayings, and needs %d to be heard well", owner, n, mostlyHeard)
	}
}
