package talk

// mannerSaid is what is said to a wish for how it is spoken; the page does the
// rest.
var mannerSaid = map[string]string{
	"slower": "Slower.", "faster": "Faster.", "louder": "Louder.", "quieter": "Quieter.", "hush": "Quiet.",
}

// manner gives the manner of speaking that an event wishes for, or "".
func manner(e Event) string {
	for _, act := range e.Acts {
		if act.Do == doManner {
			return act.Value
		}
	}
	return ""
}
