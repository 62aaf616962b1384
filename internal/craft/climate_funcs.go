package craft

const ofTheMix = "; powder as sold, syrup of 70 %, glycerin and water stirred in, all in g, and humidity in percent up to 90"

// climateFuncs are the sums of the air for rule expressions.
func climateFuncs() []Func {
	const mix, mixAt = "gelatin syrup glycerin water", "gelatin syrup glycerin water humidity"
	const edge = "thickness_mm faces celsius humidity"
	return []Func{
		sum("gelatin_water_gg", "humidity", "g/g",
			"water that gelatin alone holds for each gram dry; humidity in percent up to 95",
			func(x ...float64) (float64, error) { return GelatinWater(x[0]) }),
		sum("glycerin_water_gg", "humidity", "g/g",
			"water that glycerin alone holds for each gram dry; humidity in percent up to 95",
			func(x ...float64) (float64, error) { return GlycerinWater(x[0]) }),
		sum("sorbitol_water_gg", "humidity", "g/g",
			"water that sorbitol alone holds for each gram dry; humidity in percent up to 95",
			func(x ...float64) (float64, error) { return SorbitolWater(x[0]) }),
		sum("glycerin_density_gml", "percent celsius", "g/ml",
			"density of glycerin thinned with water; percent of glycerin by mass, 15 to 30 degrees C",
			func(x ...float64) (float64, error) { return GlycerinDensityAt(x[0], x[1]) }),
		signed(sum("mass_change_percent", mixAt, "percent",
			"change of mass from as cast once settled in the air"+ofTheMix,
			ofCast(func(d Dry, x []float64) (float64, error) {
				s, err := d.At(x[4])
				return s.MassChange, err
			}))),
		signed(sum("size_change_percent", mixAt, "percent",
			"change of every length from as cast once settled in the air"+ofTheMix,
			ofCast(func(d Dry, x []float64) (float64, error) {
				s, err := d.At(x[4])
				return s.SizeChange, err
			}))),
		sum("steady_humidity", mix, "percent",
			"humidity at which the cast does not change; powder as sold, syrup of 70 %, glycerin and water stirred in, all in g",
			ofCast(func(d Dry, _ []float64) (float64, error) { return d.SteadyRH() })),
		signed(sum("water_to_hold_g", mixAt, "g",
			"further water to stir in for the cast not to change, below nothing: to leave out"+ofTheMix,
			ofCast(func(d Dry, x []float64) (float64, error) { return d.WaterToHold(x[4]) }))),
		sum("saturation_pa", "celsius", "Pa",
			"pressure of water vapour in air that can hold no more; 0 to 50 degrees C",
			func(x ...float64) (float64, error) { return SaturationPressure(x[0]) }),
		sum("drying_g_m2h", "celsius humidity", "g/(m2 h)",
			"water that leaves plain wet gelatin in still air; 0 to 50 degrees C, humidity in percent",
			func(x ...float64) (float64, error) { return DryingRate(x[0], x[1], plainGelActivity) }),
		sum("edge_curl_min", edge, "min",
			"time until an edge of plain gelatin curls in still air; mm, 1 or 2 open faces, 0 to 50 degrees C, humidity in percent",
			edgeCurl(func(s Span) float64 { return s.Mid })),
		sum("edge_curl_from_min", edge, "min",
			"the shortest that edge_curl_min may be; mm, 1 or 2 open faces, 0 to 50 degrees C, humidity in percent",
			edgeCurl(func(s Span) float64 { return s.Low })),
		sum("edge_curl_to_min", edge, "min",
			"the longest that edge_curl_min may be; mm, 1 or 2 open faces, 0 to 50 degrees C, humidity in percent",
			edgeCurl(func(s Span) float64 { return s.High })),
	}
}

// ofCast takes the first four arguments as gelatin, syrup, glycerin and water.
func ofCast(f func(d Dry, x []float64) (float64, error)) func(...float64) (float64, error) {
	return func(x ...float64) (float64, error) {
		cast, err := DryOf(x[0], x[1], SyrupSolids, x[2], x[3], 0)
		if err != nil {
			return 0, err
		}
		return f(cast, x)
	}
}

func edgeCurl(end func(Span) float64) func(...float64) (float64, error) {
	return func(x ...float64) (float64, error) {
		span, err := EdgeCurl(x[0], x[1], x[2], x[3], plainGelActivity)
		return end(span), err
	}
}
