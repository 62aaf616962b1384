package craft

import "slices"

// heatFuncs are the sums of heating and cooling for rule expressions.
func heatFuncs() []Func {
	return slices.Concat(
		[]Func{
			sum("microwave_s", microwaveParams, "s",
				"time in the microwave oven, all bursts together; "+microwaveDoc, microwave(midOf, 0)),
			sum("microwave_from_s", microwaveParams, "s",
				"shortest time in the microwave oven, the one to start from; "+microwaveDoc, microwave(lowOf, 0)),
			sum("microwave_to_s", microwaveParams, "s",
				"longest time in the microwave oven, with a set gel to melt; "+microwaveDoc, microwave(highOf, 0.2)),
			sum("oven_w", "water_g rise_c time_s", "W",
				"output of a microwave oven by g of cold water, its rise in degrees C and the time in s",
				func(x ...float64) (float64, error) { return OvenWatts(x[0], x[1], x[2]) }),
		},
		ranged("slab_set", "min", "thickness_mm start_c plate_c set_c faces",
			"time until a casting is set right through; mm, degrees C as poured, of the plate, at setting; faces 1 open or 2 closed", slabSet),
		ranged("jug_hold", "min", "ml start_c end_c room_c",
			"time until a jug of ml in still air has cooled so far; degrees C now, to pour at, of the room",
			func(x ...float64) (Span, error) { return JugHold(x[0], x[1], x[2], x[3]) }),
		[]Func{
			sum("burn_s", "celsius", "s",
				"contact with something of so many degrees C until the skin is hurt; 0.1 means at once, 28800 eight hours or more",
				burn(func(b Burns) float64 { return b.Reversible })),
			sum("burn_lasting_s", "celsius", "s",
				"contact with something of so many degrees C until the harm lasts; 0.1 means at once, 28800 eight hours or more",
				burn(func(b Burns) float64 { return b.Irreversible })),
			sum("strength_kept_percent", "celsius minutes", "percent",
				"strength left in gelatin held at so many degrees C for so many minutes",
				func(x ...float64) (float64, error) { return StrengthKept(x[0], x[1]) }),
		})
}

func lowOf(s Span) float64  { return s.Low }
func midOf(s Span) float64  { return s.Mid }
func highOf(s Span) float64 { return s.High }

// ranged declares the three sums of a span: name_unit for Mid, name_from_unit
// and name_to_unit for its ends.
func ranged(name, unit, params, doc string, fn func(...float64) (Span, error)) []Func {
	part := func(name, which string, of func(Span) float64) Func {
		return sum(name+"_"+unit, params, unit, which+doc, func(x ...float64) (float64, error) {
			s, err := fn(x...)
			return of(s), err
		})
	}
	return []Func{
		part(name, "", midOf),
		part(name+"_from", "the shortest ", lowOf),
		part(name+"_to", "the longest ", highOf),
	}
}

const (
	microwaveParams = "grams heat_kj_kg_k start_c end_c watts"
	microwaveDoc    = "g, kJ/(kg K): 2.4 for gelatin, sorbitol and glycerin, 3.4 for gelatin and water; degrees C, rated W"
)

// microwave gives one part of the time, with a share of the mass as gelatin to
// melt.
func microwave(part func(Span) float64, gelatin float64) func(...float64) (float64, error) {
	return func(x ...float64) (float64, error) {
		s, err := Warming{Grams: x[0], HeatCapacity: x[1], Gelatin: gelatin * x[0], From: x[2], To: x[3], Watts: x[4]}.Seconds()
		return part(s), err
	}
}

func slabSet(x ...float64) (Span, error) {
	faces := 0 // neither open nor closed, and refused
	if x[4] == 1 || x[4] == 2 {
		faces = int(x[4])
	}
	return Casting{Thickness: x[0], Start: x[1], Plate: x[2], End: x[3], Faces: faces}.Minutes()
}

func burn(part func(Burns) float64) func(...float64) (float64, error) {
	return func(x ...float64) (float64, error) {
		burns, err := BurnTimes(x[0])
		return part(burns), err
	}
}
