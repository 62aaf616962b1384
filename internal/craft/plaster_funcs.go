package craft

// plasterFuncs are the sums of plaster for rule expressions. All are of
// BetaPlaster, the kind for moulds.
func plasterFuncs() []Func {
	return []Func{
		sum("dry_plaster_g", "slurry_ml consistency", "g",
			"plaster powder for the slurry in ml; consistency is water to 100 of plaster by mass, usually 70",
			plasterPart(MixPlaster, func(m PlasterMix) float64 { return m.Plaster })),
		sum("plaster_water_g", "slurry_ml consistency", "g",
			"water for the slurry in ml; consistency is water to 100 of plaster by mass, usually 70",
			plasterPart(MixPlaster, func(m PlasterMix) float64 { return m.Water })),
		sum("with_spare", "x percent", "",
			"the amount with so many percent more, for what stays in the bowl",
			func(x ...float64) (float64, error) { return WithSpare(x[0], x[1]) }),
		sum("water_for_plaster_g", "plaster_g consistency", "g",
			"water for so many g of plaster powder; consistency is water to 100 of plaster by mass",
			plasterPart(BetaPlaster.FromPlaster, func(m PlasterMix) float64 { return m.Water })),
		sum("plaster_for_water_g", "water_g consistency", "g",
			"plaster powder for so many g of water; consistency is water to 100 of plaster by mass",
			plasterPart(BetaPlaster.FromWater, func(m PlasterMix) float64 { return m.Plaster })),
		sum("slurry_from_plaster_ml", "plaster_g consistency", "ml",
			"slurry that so many g of plaster powder make; consistency is water to 100 of plaster by mass",
			plasterPart(BetaPlaster.FromPlaster, func(m PlasterMix) float64 { return m.Slurry })),
		sum("scooped_plaster_ml", "plaster_g", "ml",
			"room that so many g of loose plaster powder take in a cup, most likely",
			scooped(func(s Span) float64 { return s.Mid })),
		sum("scooped_plaster_from_ml", "plaster_g", "ml",
			"room that so many g of loose plaster powder take in a cup, at the least",
			scooped(func(s Span) float64 { return s.Low })),
		sum("scooped_plaster_to_ml", "plaster_g", "ml",
			"room that so many g of loose plaster powder take in a cup, at the most",
			scooped(func(s Span) float64 { return s.High })),
		sum("plaster_scooped_g", "plaster_ml", "g",
			"plaster powder in so many ml scooped loose, most likely; 7 percent more or less is possible",
			func(x ...float64) (float64, error) {
				mass, err := ScoopMass(x[0], LooseBeta)
				return mass.Mid, err
			}),
		sum("wet_block_g", "slurry_ml consistency", "g",
			"weight of the block just set, from the slurry in ml; consistency is water to 100 of plaster by mass",
			plasterPart(MixPlaster, func(m PlasterMix) float64 { return m.WetMass })),
		sum("dry_block_g", "slurry_ml consistency", "g",
			"weight of the block once dry, from the slurry in ml; consistency is water to 100 of plaster by mass",
			plasterPart(MixPlaster, func(m PlasterMix) float64 { return m.DryMass })),
		sum("water_to_dry_g", "slurry_ml consistency", "g",
			"water that leaves the block until it is dry, from the slurry in ml; consistency is water to 100 of plaster by mass",
			plasterPart(MixPlaster, func(m PlasterMix) float64 { return m.WaterToDry })),
		sum("plaster_peak_c", "start_c consistency", "C",
			"warmest that setting plaster can become, an upper bound, from its start in degrees C; consistency is water to 100 of plaster by mass",
			func(x ...float64) (float64, error) { return BetaPlaster.Peak(x[0], x[1]) }),
		sum("plaster_strength_percent", "consistency", "percent",
			"rough strength of the dry block against one mixed at 70, which may be 40 percent off; consistency is water to 100 of plaster by mass, 45 to 100",
			func(x ...float64) (float64, error) {
				// Less water is for the hard kinds, whose label outranks this.
				if err := within("water to 100 of a pottery or moulding plaster", x[0], 45, weakest, "by mass"); err != nil {
					return 0, err
				}
				return RelativeStrength(x[0])
			}),
		sum("bowl_mixes", "slurry_ml bowl_ml", "mixes",
			"how many mixes the slurry in ml takes in a bowl that holds so many ml, filled to two thirds",
			func(x ...float64) (float64, error) {
				batches, err := InBowls(x[0], x[1])
				return float64(batches.Mixes), err
			}),
	}
}

// plasterPart reads one part of the mix that comes of an amount and a
// consistency.
func plasterPart(mix func(amount, consistency float64) (PlasterMix, error), part func(PlasterMix) float64) func(...float64) (float64, error) {
	return func(x ...float64) (float64, error) {
		m, err := mix(x[0], x[1])
		return part(m), err
	}
}

// scooped reads one end of the room that loose powder takes.
func scooped(end func(Span) float64) func(...float64) (float64, error) {
	return func(x ...float64) (float64, error) {
		room, err := Scooped(x[0], LooseBeta)
		return end(room), err
	}
}
