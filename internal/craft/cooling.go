package craft

import (
	"errors"
	"fmt"
	"math"
)

// A Surface is what a material does to heat that arrives suddenly: its thermal
// effusivity, the root of conductivity, density and heat capacity, in
// W s^1/2/(m2 K).
type Surface float64

// Surfaces of the bench.
// Source: reckoned from handbook conductivities, densities and heat
// capacities (from memory).
const (
	GelSurface        Surface = 1100
	DryPlasterSurface Surface = 650
	WetPlasterSurface Surface = 1500
	GlassSurface      Surface = 1450
	MetalSurface      Surface = 22000 // aluminium
	SkinSurface       Surface = 1200

	// coldSurface stays at its temperature whatever lies on it.
	coldSurface Surface = 1e12
)

const (
	gelConducts   = 0.4                    // W/(m K), from memory
	gelHolds      = 1.285 * 2.36           // J/(ml K): density and heat capacity of 1 gelatin : 2 syrup : 2 glycerin
	gelSpread     = gelConducts / gelHolds // mm2/s, thermal diffusivity: 0.13
	stillAirTakes = 9.5                    // W/(m2 K): radiation 5.2 and still air 2.5 to 6 (ASHRAE Fundamentals, from memory)
)

// TouchTemperature gives the temperature in degrees C between two thick bodies
// in the first seconds of their touching.
// Source: Carslaw and Jaeger, Conduction of Heat in Solids, 2.14: the mean,
// weighed by the effusivities.
func TouchTemperature(a Surface, aCelsius float64, b Surface, bCelsius float64) (float64, error) {
	err := firstOf(a.check(), b.check(),
		within("temperature of a surface", aCelsius, -50, 500, "degrees C"),
		within("temperature of a surface", bCelsius, -50, 500, "degrees C"))
	if err != nil {
		return 0, err
	}
	return (float64(a)*aCelsius + float64(b)*bCelsius) / float64(a+b), nil
}

func (s Surface) check() error {
	return within("effusivity of a surface", float64(s), 1, 1e5, "W s^1/2/(m2 K)")
}

// A Casting is a flat piece as it cools, of one thickness throughout.
type Casting struct {
	Thickness float64 // mm
	Start     float64 // degrees C, as poured
	Plate     float64 // degrees C, of what it lies on and of the air
	End       float64 // degrees C that its slowest point is to come down to
	Faces     int     // 1 open on top, 2 closed between two halves
}

// Minutes gives how long the slowest point takes. Low: the faces stay as cold
// as the plate, as on a thick cold metal plate. Mid: glass or damp plaster,
// which warm up; with one face, the air helps. High: dry plaster, or the air
// alone where that is quicker.
func (c Casting) Minutes() (Span, error) {
	theta, err := c.left()
	if err != nil {
		return Span{}, err
	}
	low := c.onSurface(coldSurface, theta)
	mid, high := c.onSurface(GlassSurface, theta), c.onSurface(DryPlasterSurface, theta)
	if c.Faces == 1 {
		// The inside's time comes on top of the outside's.
		air := c.inAir(theta) + low
		mid, high = mid*air/(mid+air), min(high, air)
	}
	high = max(high, low)
	return Span{Low: low, Mid: min(max(mid, low), high), High: high}, nil
}

// left gives the part of the warmth that is left in the end, after checking.
func (c Casting) left() (float64, error) {
	err := firstOf(within("thickness", c.Thickness, 0.1, 200, "mm"),
		within("temperature as poured", c.Start, 0, 100, "degrees C"),
		within("temperature of the plate", c.Plate, -30, 60, "degrees C"),
		within("temperature to cool to", c.End, -30, 100, "degrees C"))
	switch {
	case err != nil:
		return 0, err
	case c.Faces != 1 && c.Faces != 2:
		return 0, errors.New("a casting cools through 1 face or through 2")
	case c.Start-c.Plate < 1:
		return 0, errors.New("the plate must be at least 1 degree colder than what is poured on it")
	}
	theta := (c.End - c.Plate) / (c.Start - c.Plate)
	if theta < 0.01 || theta > 0.99 {
		return 0, fmt.Errorf("the temperature to cool to must lie clearly between that of the plate (%s) and that of the pour (%s degrees C)",
			plain(math.Round(10*c.Plate)/10), plain(math.Round(10*c.Start)/10))
	}
	return theta, nil
}

// depth gives the mm from the slowest point to a cooled face.
func (c Casting) depth() float64 { return c.Thickness / float64(c.Faces) }

// onSurface gives the minutes until theta of the warmth is left where a thick
// body of e takes it up, by halving on y = depth / (2 sqrt(spread time)).
func (c Casting) onSurface(e Surface, theta float64) float64 {
	low, high := 1e-3, 6.0
	for range 60 {
		y := math.Sqrt(low * high)
		if warmthLeft(y, e) > theta {
			high = y
		} else {
			low = y
		}
	}
	half := c.depth() / (2 * low)
	return half * half / gelSpread / 60
}

// warmthLeft gives the part of the warmth left at the closed face of a gel
// slab on a thick body of effusivity e that starts cold.
// Source: Laplace's method as in Carslaw and Jaeger 12.8, gel g on body b:
// 1 - 2b/(g+b) sum r^n erfc((2n+1) y), r = (g-b)/(g+b). For b without end it
// is the slab of 3.4 on an ideal plate, 4/pi theta = exp(pi^2/4 Fo) later on.
func warmthLeft(y float64, e Surface) float64 {
	r := float64((GelSurface - e) / (GelSurface + e))
	sum, power := 0.0, 1.0
	for n := range 4000 {
		term := power * math.Erfc(float64(2*n+1)*y)
		sum += term
		if power *= r; math.Abs(term) < 1e-15 {
			break
		}
	}
	return 1 - (1-r)*sum
}

// inAir gives the minutes until theta of the warmth is left where still air on
// one side takes it and the inside keeps up.
func (c Casting) inAir(theta float64) float64 {
	stored := gelHolds * 1000 * c.Thickness // J/(m2 K)
	return stored / stillAirTakes * math.Log(1/theta) / 60
}

// JugHold gives the minutes until ml of a mix in a jug in still air have come
// down from start to end, in degrees C, with the room at room degrees.
// Source: Newton's law of cooling for a stirred jug about as wide as it is
// high; the ends allow for its shape, for the mix and for steam from the open
// top (guesses).
func JugHold(ml, start, end, room float64) (Span, error) {
	err := firstOf(within("volume in the jug", ml, 10, 1e4, "ml"),
		within("temperature in the jug", start, 0, 100, "degrees C"),
		within("temperature to pour at", end, 0, 100, "degrees C"),
		within("temperature of the room", room, -10, 50, "degrees C"))
	switch {
	case err != nil:
		return Span{}, err
	case start-room < 1 || end-room < 0.1 || end > start:
		return Span{}, errors.New("the temperature to pour at must lie between that of the room and that in the jug")
	}
	across := math.Cbrt(4*ml/math.Pi) / 100 // m
	area := 1.5 * math.Pi * across * across // m2, with bottom and top
	cooled := math.Log((start - room) / (end - room))
	span, _, err := Spread(func(x []float64) (float64, error) {
		return ml * x[0] * cooled / (x[1] * area * x[2]) / 60, nil
	}, []Guess{
		{Name: "heat held by the mix", Value: gelHolds, Low: 2.9, High: 3.8}, // J/(ml K), plain gel above
		{Name: "cooling by the air", Value: stillAirTakes, Low: 7.7, High: 15},
		{Name: "shape of the jug", Value: 1, Low: 0.83, High: 1.3},
	})
	return span, err
}

// StrengthKept gives the percent of its strength that gelatin keeps after so
// many minutes held hot, at degrees C. Past 100 degrees it refuses.
// Source: 5 % lost in 2 hours at 60 degrees C (gelatin maker's data); other
// temperatures by an activation energy of 90 kJ/mol (from memory, weak).
func StrengthKept(celsius, minutes float64) (float64, error) {
	if celsius > 100 {
		return 0, errors.New("gelatin must not go above 100 degrees C, even briefly")
	}
	err := firstOf(within("temperature held", celsius, 0, 100, "degrees C"),
		notNegative("time held", minutes, 30*24*60, "minutes"))
	if err != nil {
		return 0, err
	}
	const energy, gas = 90e3, 8.314 // J/mol, J/(mol K)
	at60 := -math.Log(0.95) / 120   // per minute
	rate := at60 * math.Exp(energy/gas*(1/(60-absoluteZero)-1/(celsius-absoluteZero)))
	return 100 * math.Exp(-rate*minutes), nil
}
