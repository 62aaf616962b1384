package voice

// alarmFar is the share of the phones that may differ between what was heard and
// an alarm that it may have been. In the trial nearly all alarms that were half
// heard are within, and no unrelated speech is.
const alarmFar = 0.45

// alarmLike gives the alarm that sounds most like words which a description was
// taken for, "" where none sounds like them: "some don't is stock in his throat".
func alarmLike(words string, alarms []string, d *Dictionary) string {
	sound := d.sound(words)
	if len(sound) == 0 {
		return ""
	}
	best, least := "", alarmFar
	for _, alarm := range alarms {
		of := d.sound(alarm)
		long := float64(max(len(of), len(sound)))
		if float64(max(len(of)-len(sound), len(sound)-len(of))) > least*long {
			continue // more is missing than may differ
		}
		if far := float64(distance(sound, of)) / long; far < least {
			best, least = alarm, far
		}
	}
	return best
}
