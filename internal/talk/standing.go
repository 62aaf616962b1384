package talk

import "slices"

// stood is an event that stands, with the one that it was told in place of.
type stood struct {
	Event
	instead *stood
	at      int // its place among those that stood
}

// standing lists the events that change something and were not taken back. An
// undo takes back the last one that a maker brought about; so does what is told
// instead of it, which gives it back when it is undone itself.
func standing(events []Event) []Event {
	var kept []stood
	for _, e := range events {
		switch {
		case e.Kind == "undo":
			kept, _ = takeBack(kept, e.does(doUndo))
		case e.does(doInstead):
			var gone *stood
			kept, gone = takeBack(kept, true)
			kept = append(kept, stood{Event: e, instead: gone})
		case e.changes():
			kept = append(kept, stood{Event: e})
		}
	}
	out := make([]Event, len(kept))
	for i, k := range kept {
		out[i] = k.Event
	}
	return out
}

// takeBack takes the last change of a maker's out, with the questions round it
// whether it was said. Such a question that is open goes alone, unless it was
// this that it asked.
func takeBack(kept []stood, answered bool) ([]stood, *stood) {
	i := lastOwn(kept)
	if i >= 0 && kept[i].asksBack() && !answered {
		return slices.Delete(kept, i, i+1), nil
	}
	kept = withoutPassing(kept)
	if i = lastOwn(kept); i < 0 {
		return kept, nil
	}
	gone := kept[i]
	gone.at = i
	kept = withoutPassing(slices.Delete(kept, i, i+1))
	if was := gone.instead; was != nil {
		kept = slices.Insert(kept, min(was.at, len(kept)), *was)
	}
	return kept, &gone
}

func withoutPassing(kept []stood) []stood {
	for i := lastOwn(kept); i >= 0 && kept[i].passes(); i = lastOwn(kept) {
		kept = slices.Delete(kept, i, i+1)
	}
	return kept
}

// lastOwn is the last event that a maker brought about: what a clock did can't be
// taken back.
func lastOwn(events []stood) int {
	for i := len(events) - 1; i >= 0; i-- {
		if events[i].Kind != "timer" {
			return i
		}
	}
	return -1
}

// lastChange is what an undo would take back now, nil for nothing.
func lastChange(events []Event) *Event {
	list := standing(events)
	for i := len(list) - 1; i >= 0; i-- {
		if e := &list[i]; e.Kind != "timer" && (!e.passes() || e.asksBack() && i == len(list)-1) {
			return e
		}
	}
	return nil
}

// changes reports whether an event changes the state at all.
func (e Event) changes() bool {
	return slices.ContainsFunc(e.Acts, func(act Act) bool {
		return act.Do != doShow && act.Do != doMissed && act.Do != doManner
	})
}

// asksBack reports whether an event asks whether something was said.
func (e Event) asksBack() bool {
	return slices.ContainsFunc(e.Acts, func(act Act) bool { return act.Do == doMean && act.Say != "" })
}

// passes reports whether an event only asks whether something was said, or says
// that it was not.
func (e Event) passes() bool { return e.asksBack() || e.does(doAgain) }

func (e Event) does(what string) bool {
	return slices.ContainsFunc(e.Acts, func(act Act) bool { return act.Do == what })
}
