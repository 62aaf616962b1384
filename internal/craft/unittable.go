package craft

// One exact base for each family; the rest follow by whole ratios.
const (
	usGallon       = 231 * 25.4 * 25.4 * 25.4 / 1000 // ml: 231 cubic inches, NIST Handbook 44 App. C
	usCup          = usGallon / 16
	usFluidOunce   = usGallon / 128
	usTablespoon   = usGallon / 256
	usTeaspoon     = usGallon / 768
	imperialGallon = 4546.09   // ml, UK Units of Measurement Regulations 1995 (SI 1995/1804)
	pound          = 453.59237 // g, NIST Handbook 44 App. C
	inch           = 25.4      // mm, same
)

type unitEntry struct {
	Unit
	also string // further spellings, comma between
}

func entry(d Dimension, factor float64, name, plural, also string) unitEntry {
	return unitEntry{Unit{Name: name, Plural: plural, Dimension: d, Factor: factor}, also}
}

func thermometer(factor, offset float64, name, plural, also string) unitEntry {
	e := entry(Temperature, factor, name, plural, also)
	e.Offset = offset
	return e
}

// unitTable holds every unit. Kitchen names without a family are the US ones;
// "T" and "t" are left out, since makers mix them up.
// A spelling in two entries is ambiguous on purpose.
var unitTable = []unitEntry{
	entry(Mass, 1, "gram", "grams", "g,gr,gm,gms,gramme,grammes"),
	entry(Mass, 1000, "kilogram", "kilograms", "kg,kgs,kilo,kilos"),
	entry(Mass, 0.001, "milligram", "milligrams", "mg"),
	entry(Mass, pound, "pound", "pounds", "lb,lbs"),
	entry(Mass, pound/16, "ounce", "ounces", "oz,ozs,dry ounce,dry ounces"),

	entry(Volume, 1, "millilitre", "millilitres", "ml,mls,milliliter,milliliters,cc,ccs,cm3,cm³,cubic centimetre,cubic centimeter,cubic centimetres,cubic centimeters,mil,mils"),
	entry(Volume, 10, "centilitre", "centilitres", "cl,centiliter,centiliters"),
	entry(Volume, 100, "decilitre", "decilitres", "dl,deciliter,deciliters"),
	entry(Volume, 1000, "litre", "litres", "l,liter,liters"),
	entry(Volume, usTeaspoon, "teaspoon", "teaspoons", "tsp,tsps,us teaspoon,us tsp,teaspoonful,teaspoonfuls"),
	entry(Volume, usTablespoon, "tablespoon", "tablespoons", "tbsp,tbsps,tbs,tblsp,us tablespoon,us tbsp,tablespoonful,tablespoonfuls"),
	entry(Volume, usFluidOunce, "fluid ounce", "fluid ounces", "fl oz,floz,us fl oz,us fluid ounce,ounce,ounces,oz,ozs"),
	entry(Volume, usCup, "cup", "cups", "c,us cup,us cups,cupful,cupfuls"),
	entry(Volume, usGallon/8, "pint", "pints", "pt,pts,us pint,us pints"),
	entry(Volume, usGallon/4, "quart", "quarts", "qt,qts,us quart,us quarts"),
	entry(Volume, usGallon, "gallon", "gallons", "gal,gals,us gallon,us gallons"),
	entry(Volume, 5, "metric teaspoon", "metric teaspoons", "metric tsp"),
	entry(Volume, 10, "dessertspoon", "dessertspoons", "dsp,dessert spoon,dessert spoons"),
	entry(Volume, 15, "metric tablespoon", "metric tablespoons", "metric tbsp"),
	entry(Volume, 20, "Australian tablespoon", "Australian tablespoons", "australian tbsp"),
	entry(Volume, 250, "metric cup", "metric cups", ""),
	entry(Volume, imperialGallon/160, "imperial fluid ounce", "imperial fluid ounces", "imperial fl oz,uk fl oz,uk fluid ounce,uk fluid ounces"),
	entry(Volume, imperialGallon/16, "imperial cup", "imperial cups", "uk cup,uk cups"),
	entry(Volume, imperialGallon/8, "imperial pint", "imperial pints", "uk pint,uk pints"),
	entry(Volume, imperialGallon/4, "imperial quart", "imperial quarts", "uk quart,uk quarts"),
	entry(Volume, imperialGallon, "imperial gallon", "imperial gallons", "uk gallon,uk gallons"),

	entry(Length, 1, "millimetre", "millimetres", "mm,mms,millimeter,millimeters,mil,mils"),
	entry(Length, 10, "centimetre", "centimetres", "cm,cms,centimeter,centimeters"),
	entry(Length, 1000, "metre", "metres", "m,meter,meters"),
	entry(Length, inch, "inch", "inches", `in,ins,"`),
	entry(Length, 12*inch, "foot", "feet", "ft,'"),
	entry(Length, 36*inch, "yard", "yards", "yd,yds"),

	entry(Time, 1, "minute", "minutes", "min,mins"),
	entry(Time, 1.0/60, "second", "seconds", "s,sec,secs"),
	entry(Time, 60, "hour", "hours", "h,hr,hrs"),
	entry(Time, 1440, "day", "days", ""),
	entry(Time, 10080, "week", "weeks", ""),

	thermometer(1, 0, "degree Celsius", "degrees Celsius", "celsius,c,deg c,deg celsius,degree c,degrees c,centigrade,degrees centigrade,deg,degree,degrees"),
	thermometer(5.0/9, -32, "degree Fahrenheit", "degrees Fahrenheit", "fahrenheit,f,deg f,deg fahrenheit,degree f,degrees f,deg,degree,degrees"),
	thermometer(1, absoluteZero, "kelvin", "kelvins", ""),

	entry(Ratio, 1, "percent", "percent", "%,per cent,pct"),

	entry(Area, 1, "square centimetre", "square centimetres", "cm2,cm²,sq cm,square cm,square centimeter,square centimeters,cm squared,centimetres squared,centimeters squared"),
	entry(Area, 0.01, "square millimetre", "square millimetres", "mm2,mm²,sq mm,square mm,square millimeter,square millimeters,mm squared,millimetres squared,millimeters squared"),
	entry(Area, inch*inch/100, "square inch", "square inches", "in2,in²,sq in,sq inch,sq inches,square in,inches squared"),

	entry(Power, 1, "watt", "watts", "w"),
	entry(Power, 1000, "kilowatt", "kilowatts", "kw"),
}
