package talk

import (
	"regexp"
	"strings"

	"sparehand/internal/craft"
	"sparehand/internal/hear"
)

// saysLength finds a unit of length beside a number.
var saysLength = regexp.MustCompile(`(?i)(?:\d|\b(?:an?|half|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|twenty|thirty|forty|fifty|sixty|hundred))\s*-?\s*(mm|cm|in|inch|inches|millimet(?:re|er)s?|centimet(?:re|er)s?)\b`)

// lengthSaid gives the unit of length in which the last number of a text was
// told; false for none.
func lengthSaid(text string) (craft.Unit, bool) {
	found := saysLength.FindAllStringSubmatch(text, -1)
	if len(found) == 0 {
		return craft.Unit{}, false
	}
	return craft.UnitNamed(strings.ToLower(found[len(found)-1][1]))
}

// inUnitSaid settles a length told without its unit by the unit that was said
// last: who measures in inches goes on in inches. Other readings stay open.
func (s *state) inUnitSaid(m hear.Meaning) []hear.Choice {
	for _, r := range m.Readings {
		for _, word := range []string{s.lengths.Name, s.lengths.Plural} {
			if word != "" && strings.HasSuffix(r.Label, " "+word) {
				return []hear.Choice{r}
			}
		}
	}
	return m.Readings
}
