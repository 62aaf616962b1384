package hear

import "testing"

// The words of these tables are common practice, no source. A refrigerator at
// or below 40 F, 4 C: US FDA, Are You Storing Food Safely?
func TestAirByPlace(t *testing.T) {
	checkSums(t, Context{}, map[string]string{
		"the stage is 30 percent humidity and the kitchen is 70, will it shrink": "amount:keeps-size command:amounts room_humidity=70 worn_humidity=30",
		"will it shrink the stage is 30 percent and the kitchen is 70":           "amount:keeps-size command:amounts room_humidity=70 worn_humidity=30",
		"will it shrink, kitchen 65 percent, 50 in the car, stage 35 percent":    "amount:keeps-size carry_humidity=50 command:amounts room_humidity=65 worn_humidity=35",
		"my kitchen is 65 percent the stage is 35 percent":                       "room_humidity=65 worn_humidity=35",
		"the stage is 30 percent":                   "worn_humidity=30",
		"on stage 30":                               "worn_humidity=30",
		"here it's 55% and in the theatre it's 30%": "room_humidity=55 worn_humidity=30",
		"will it hold at 45 percent in the hall":    "amount:keeps-size command:amounts worn_humidity=45",
		"is it going to shrink in a dry hall":       "amount:keeps-size command:amounts",
		"we have 30 seats on stage":                 "",
		"the hall holds 200 people":                 "",
		"20 percent spare here":                     "spare_percent=20",
		"how much gelatin for 50 g of glycerin, my sorbitol syrup is 60 percent": "amount:gel-mix command:amounts have_glycerin_g=50 recipe=gelatin_sorbitol_glycerin syrup_strength_percent=60",
	})
	checkSums(t, under(t, "keeps-size"), map[string]string{
		"on stage 30":                    "worn_humidity=30",
		"what if i use the sorbitol one": "recipe=gelatin_sorbitol_glycerin",
		"kitchen 60, stage 30":           "room_humidity=60 worn_humidity=30",
	})
	checkSums(t, under(t, "gel-mix"), map[string]string{"my kitchen is 65 percent": "room_humidity=65"})
	c := asksSum(t, "room_humidity", "keeps-size")
	checkSums(t, c, map[string]string{
		"the stage is 30 percent and the kitchen is 70": "room_humidity=70 worn_humidity=30",
		"70 here and 30 on stage":                       "room_humidity=70 worn_humidity=30",
		"the hall is 30":                                "worn_humidity=30",
		"forty":                                         "room_humidity=40",
	})
}

func TestWarmthByPlace(t *testing.T) {
	checkSums(t, Context{}, map[string]string{
		"how long does it stay liquid in a 16 c kitchen":                                      "amount:pours-for command:amounts room_temperature=16",
		"my room is 18 degrees how long can i pour 200 ml":                                    "amount:pours-for command:amounts mix_ml=200 room_temperature=18",
		"how long can i pour 200 ml, the kitchen is 16 c":                                     "amount:pours-for command:amounts mix_ml=200 room_temperature=16",
		"how long can i pour 2 c, the kitchen is 60 f":                                        "amount:pours-for command:amounts mix_ml=473.176 room_temperature=15.556",
		"how long in the microwave, 300 g from the fridge to 70 degrees celsius at 600 watts": "amount:microwave command:amounts heat_from_c=4 heat_to_c=70 microwave_w=600 mix_g=300",
		"how long in the microwave from 5 c to 65, 200 g at 700 watts":                        "amount:microwave command:amounts heat_from_c=5 heat_to_c=65 microwave_w=700 mix_g=200",
		"heat 200 g from 20 to 60 c at 900 w how long":                                        "amount:microwave command:amounts heat_from_c=20 heat_to_c=60 microwave_w=900 mix_g=200",
	})
	checkSums(t, under(t, "pours-for"), map[string]string{"the kitchen is 16": "room_temperature=16"})
	h, _ := sumsHearing(t)
	want := "I could not place 40 degrees: say whether the room, the mix or the plaster is so warm."
	if got := h.Hear(under(t, "glue"), "40 degrees").Complaint; got != want {
		t.Errorf("a temperature that nothing can use: %q, want %q", got, want)
	}
}

func TestBeforeAndAfter(t *testing.T) {
	checkSums(t, Context{}, map[string]string{
		"i cooked 250 grams and now its 235, how much water do i put back": "amount:water-lost command:amounts melt_after_g=235 melt_before_g=250",
		"the jug went from 400 g to 382 g how much water":                  "amount:water-lost command:amounts melt_after_g=382 melt_before_g=400",
		"jug weighed 400 before and 382 after":                             "melt_after_g=382 melt_before_g=400",
		"started with 400 grams, 380 now, what do i add":                   "amount:water-lost command:amounts melt_after_g=380 melt_before_g=400",
		"the water went from 400 to 450 ml":                                "jug_after_ml=450 jug_before_ml=400",
		"how much water for 300 g of plaster":                              "amount:plaster-water command:amounts have_plaster_g=300",
	})
	checkSums(t, under(t, "gel-mix"), map[string]string{"how much water do i put in": "amount:water-lost command:amounts"})
	checkSums(t, under(t, "water-lost"), map[string]string{"from 400 g to 382 g": "melt_after_g=382 melt_before_g=400"})
	checkSums(t, asksSum(t, "melt_before_g", "water-lost"), map[string]string{"it was 400 and now it is 382": "melt_after_g=382 melt_before_g=400"})
}

// asksSum is a question of a number while a sum is under way.
func asksSum(tb testing.TB, fact, sum string) Context {
	tb.Helper()
	_, b := sumsHearing(tb)
	c := under(tb, sum)
	f := b.FactByName(fact)
	c.Asked = &Asked{Fact: f, Kind: f.Kind, Options: f.Options}
	return c
}
