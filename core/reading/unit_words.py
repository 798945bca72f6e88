"""How people spell units: the spellings of each unit key, and the words that stand around units. Data only.

Unit keys are those of `core.units`, and beside them `drop`, `part`, `deg` and `delta_deg` (degrees of an unsaid
scale) and `m3`. Spellings are lower case; a space parts the tokens of a spelling; full stops are not written.
"""

from __future__ import annotations

from core.reading.tokens import word_set

SPELLINGS: dict[str, str] = {
    # weight
    "mg": "mg, mgs, milligram, milligrams, milligramme, milligrammes, milli gram, milli grams",
    "g": "g, gm, gms, gr, grs, grm, grms, gram, grams, gramme, grammes, gramms, gramm, grammi, gramos, grms, gs, g's",
    "kg": "kg, kgs, kilo, kilos, kilogram, kilograms, kilogramme, kilogrammes, kilo gram, kilo grams, kgm, kgms",
    "t": "tonne, tonnes, metric ton, metric tons",
    "oz": "oz, ozs, oz's, ounce, ounces, ozes, ounc, ounze, onz, ounce, oz av, avoirdupois ounce, avoirdupois ounces",
    "lb": "lb, lbs, lb's, ibs, pound, pounds, pnd, pnds, pund, punds, lbz",
    "grain": "grain, grains",
    "stone": "stone",
    "oz_t": "troy ounce, troy ounces, troy oz, oz troy, ozt, oz t, ounce troy, ounces troy",
    # volume
    "ml": "ml, mls, ml's, mil, mils, millilitre, millilitres, milliliter, milliliters, mililiter, mililiters, "
    "mililitre, mililitres, milli litre, milli litres, milli liter, milli liters, cc, ccs, ccm, cm 3, cm ^ 3, cm ³, "
    "cubic cm, cubic centimetre, cubic centimetres, cubic centimeter, cubic centimeters",
    "cl": "cl, cls, centilitre, centilitres, centiliter, centiliters",
    "dl": "dl, dls, decilitre, decilitres, deciliter, deciliters",
    "l": "l, ltr, ltrs, lt, lts, litre, litres, liter, liters, litr, liter's, lit",
    "m3": "m 3, m ^ 3, m ³, cubic m, cubic metre, cubic metres, cubic meter, cubic meters",
    "fl_oz": "fl oz, fl ozs, fl ounce, fl ounces, floz, flozs, fluid oz, fluid ozs, fluid ounce, fluid ounces, "
    "fl, oz fl, ounce fluid, ounces fluid, oz fluid, liquid oz, liquid ounce, liquid ounces, flounce, flounces",
    "cup": "cup, cups, cupful, cupfuls, cupsful",
    "pint": "pint, pints, pt, pts",
    "quart": "quart, quarts, qt, qts",
    "gallon": "gallon, gallons, gal, gals, gall, galls",
    "tbsp": "tbsp, tbsps, tbs, tb, tbl, tbls, tblsp, tblsps, tblspn, tblspns, tbspn, tablespoon, tablespoons, "
    "tablespoonful, tablespoonfuls, tablespoonsful, table spoon, table spoons, tabelspoon, tabelspoons",
    "tsp": "tsp, tsps, tspn, tspns, teasp, teaspoon, teaspoons, teaspoonful, teaspoonfuls, teaspoonsful, tea spoon, "
    "tea spoons",
    "drop": "drop, drops, dropful",
    # share
    "percent": "%, percent, percents, per cent, per cents, pct, pcts, prcnt, prct, prcent, perc, percentage, "
    "percentage point, percentage points, pp, prozent, procent, pourcent, pour cent",
    "part": "part, parts",
    # temperature
    "degC": "° c, deg c, degs c, degree c, degrees c, celsius, celcius, celsuis, celsious, centigrade, centigrades, "
    "degc, ° celsius, ° celcius, deg celsius, degs celsius, deg celcius, degree celsius, degrees celsius, "
    "degree celcius, degrees celcius, degree centigrade, degrees centigrade, deg centigrade, ° centigrade",
    "degF": "° f, deg f, degs f, degree f, degrees f, fahrenheit, farenheit, farenheight, fahrenheight, farenhite, "
    "fahreneit, degf, ° fahrenheit, ° farenheit, deg fahrenheit, degs fahrenheit, deg farenheit, degree fahrenheit, "
    "degrees fahrenheit, degree farenheit, degrees farenheit, degrees fahrenheight, degrees farenheight",
    "deg": "°, deg, degs, degree, degrees",
    "kelvin": "kelvin, kelvins",
    # length
    "mm": "mm, mms, millimetre, millimetres, millimeter, millimeters",
    "cm": "cm, cms, centimetre, centimetres, centimeter, centimeters",
    "m": "m, metre, metres, meter, meters, mtr, mtrs",
    "in": "inch, inches, inchs",
    "ft": "ft, foot, feet",
    # money
    "usd": "$, dollar, dollars, buck, bucks, usd",
    "eur": "€, euro, euros, eur, eurs",
    "gbp": "£, quid, gbp, sterling, pound sterling, pounds sterling",
    "money": "¥, yen, rupee, rupees, ₹, cad, aud, nzd, francs, kr, kronor, krona, zloty",
}

# Coins, in the unit and share they are of.
COINS: dict[str, tuple[str, str]] = {
    "cents": ("money", "0.01"),
    "cent": ("money", "0.01"),
    "pence": ("gbp", "0.01"),
    "¢": ("usd", "0.01"),
}

MONEY_BEFORE = {"$": "usd", "€": "eur", "£": "gbp", "¥": "money", "₹": "money"}
MONEY = frozenset({"usd", "eur", "gbp", "money"})

# Measures that differ by country: whose is meant, and by which words it is said.
SYSTEM_WORDS = {
    **dict.fromkeys(("us", "american", "usa", "customary"), "us"),
    **dict.fromkeys(("imperial", "imp", "uk", "british", "english"), "imp"),
    **dict.fromkeys(("metric", "australian"), "metric"),
    "label": "label",
}
SYSTEMS: dict[str, frozenset[str]] = {
    "fl_oz": frozenset({"us", "imp", "label"}),
    "cup": frozenset({"us", "imp", "metric", "label"}),
    "tbsp": frozenset({"us", "imp", "metric"}),
    "tsp": frozenset({"us", "imp", "metric"}),
    "pint": frozenset({"us", "imp"}),
    "quart": frozenset({"us", "imp"}),
    "gallon": frozenset({"us", "imp"}),
}

# Words that may stand between a number and its unit and do not change it.
DESCRIBING = word_set(
    "heaping heaped scant level rounded generous good full whole big small large packed net weight dry liquid "
    "avoirdupois standard more extra additional further bare exact"
)

# "per ..." or "/..." of one of these makes something else of a weight or volume: a pressure, a flow, a speed.
OTHER_PER = word_set("square sq second seconds sec secs s minute minutes min mins hour hours hr hrs h mol mole")
SLASH_ONLY = word_set("day days d w week wk month mo year yr a k capita person")

# A number of these is not an amount of anything weighed.
NOT_OURS = word_set(
    "second seconds sec secs minute minutes min mins hour hours hr hrs h day days week weeks month months year years "
    "yr yrs am pm o'clock oclock stars star watt watts w kw kwh v volt volts amp amps hz khz mhz ghz psi bar mph kmh "
    "kph km mile miles mi joule joules j kj cal kcal calorie calories tev gev mev ev ppm rpm dpi px mb gb tb kb"
)
ORDINAL_ENDINGS = frozenset({"st", "nd", "rd", "th"})

# Before a number: it numbers something, it counts nothing.
NUMBERING = word_set(
    "no nr number № # step page chapter version v vol volume model issue question item row seat gate room route size"
)

# Words near which pounds are money.
PAYING = word_set(
    "paid pay pays paying spend spent spends cost costs costing charge charges charged sell sells sold selling worth "
    "budget save saved price priced fee refund profit earn earned £"
)
# After these, "price of/for 3 pounds" is a weight.
PRICE_NOUNS = frozenset({"price", "cost", "costs", "worth"})
PRICING = PAYING | word_set("cheap cheaper cheapest dear dearer expensive prices pricing $ € dollars euro euros")

TEMPERATURE_CUES = word_set(
    "at to from below above under over around about heat heated cool cooled reaches reached reach temp temperature "
    "hits hit near until till is was between and"
)
DIFFERENCE_AFTER = word_set(
    "warmer cooler hotter colder higher lower difference differences rise drop increase decrease apart spread "
    "above below"
)
DIFFERENCE_BEFORE = word_set("by rose dropped fell difference rise drop increase decrease swing")
SEATING = word_set("seat seats row gate flight aisle floor apartment flat bus route hall exhibit")

NETWORK = word_set("network networks phone phones internet signal mobile wifi tower towers coverage modem router")

# Small words after "2 c" or "1 t": then it is no cup or spoon of something.
SMALL_WORDS = word_set(
    "in at and or to is for the when if it its was were but so than then on off as by with from above below outside "
    "inside room higher lower warmer cooler hotter colder difference too max min maximum minimum not now i my are be "
    "before after while until till"
)

# After "3 in": a length.
SIZE_WORDS = word_set("long wide tall deep high thick across diameter square round x by of pan jar tin pot")

# What is weighed here. A dash before a figure parts it from these: "soy wax -500 g" is no negative weight.
FRAGRANCES = word_set("oil oils fragrance fragrances fo scent perfume parfum dye essential")
MATERIALS = FRAGRANCES | word_set("wax soy paraffin beeswax total load jar water blend mix lid tin gel coconut")

# Real words that a careless matcher would take for a misspelt unit.
NOT_MISSPELT = word_set(
    "liners liner livers liver later lifter letter letters lighter grass gross grand grade grades grabs grasp galleon "
    "galleons found founds round rounds pounce counts count present presents perfect person persons parent parents "
    "kills gramps graham grahams bounce flounce lovers layer layers lines liven liter lithe loners rounded pouch "
    "poured pounder pounders pounded"
)
FUZZY_TARGETS: dict[str, str] = {
    spelling: key
    for key, spellings in {
        "g": "grams gramme grammes",
        "kg": "kilogram kilograms kilogramme kilogrammes kilos",
        "mg": "milligram milligrams",
        "oz": "ounce ounces",
        "lb": "pound pounds",
        "ml": "millilitre millilitres milliliter milliliters",
        "l": "litre litres liter liters",
        "gallon": "gallon gallons",
        "tbsp": "tablespoon tablespoons",
        "tsp": "teaspoon teaspoons",
        "percent": "percent",
        "degC": "celsius",
        "degF": "fahrenheit",
    }.items()
    for spelling in spellings.split()
}
