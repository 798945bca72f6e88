"The words that reading listens for, by what they tell. Data only: slips of the pen are `core.reading.words`' affair."

from __future__ import annotations

# What an amount can be of. The last such word of a run is its head: a "wax pot" is a pot, "candle wax" is wax.
NOUNS: dict[str, str] = {
    "wax": "wax waxes wx wachs cire cera soy soya paraffin parafin parrafin paraffine beeswax rapeseed palm "
    "coconut base blend flakes flake pellets pellet pastilles beads prills shavings chips granules cera",
    "fragrance": "oyl fragrance fragrances frag scent scents sent perfume perfumes parfum perfum parfume aroma oil "
    "oils fo fos eo eos smell duft öl huile fragance fragrence essence vanilla lavender rose musk lemon cedar "
    "cedarwood sandalwood cinnamon pine eucalyptus peppermint bergamot jasmine lemongrass patchouli clove "
    "rosemary amber fig oud tonka vetiver neroli basil grapefruit tobacco thyme gardenia geranium chamomile "
    "frankincense myrrh verbena freesia magnolia mimosa",
    "dye": "dye dyes colour color colours colors colorant colourant pigment pigments mica",
    "additive": "uv inhibitor hardener stearin stearic additive additives stabiliser stabilizer",
    "water": "water wasser eau",
    "carrier": "carrier",
    "total": "ttl sum scented fragranced total totals whole everything finished mix mixture batch altogether product "
    "pour combined compound filling contents",
    "candle": "candle candles votive votives tealight tealights pillar pillars melt melts tart tarts cube cubes "
    "favour favours favor favors kerze kerzen vela velas bougie bougies candela candele",
    "jar": "form forms cavity cavities dish dishes cans planter planters jar jars tin tins vessel vessels glass "
    "glasses tumbler tumblers mould moulds mold molds container containers mug mugs bowl bowls ramekin ramekins "
    "teacup teacups cup-shaped tumblr",
    "pot": "pot pots kettle kettles pitcher pitchers jug jugs pan pans saucepan melter boiler",
    "bottle": "bottle bottles bottel bottels samples sample vial vials flask",
    "measure": "cylinder cylinders beaker beakers syringe syringes pipette pipettes spoon spoons",
    "lid": "lid lids cap caps",
    "box": "box boxes carton cartons packaging packing filler paper tissue wrap wrapping bubblewrap bubble "
    "cardboard crate padding mailer mailers envelope envelopes papers stuffing",
    "pack": "bag bags sack sacks pack packs packet packets slab slabs case cases block blocks tub tubs pail pails"
    " bucket buckets bundle bundles",
    "wick": "wick wicks",
    "scale": "scale scales balance",
    "load": "load",
    "density": "density densities gravity sg dense dichte",
    "divisor": "divisor",
}
# Where one word is two things: a melt is a candle, "melted" wax is wax; kept apart from the run above.
ALSO: dict[str, str] = {
    "wax_itself": "wax waxes wx wachs cire soy soya paraffin parafin parrafin paraffine beeswax rapeseed",
    "flakes": "flakes flake pellets pellet pastilles shavings chips granules",
    "liquid": "fragrance scent perfume oil oils fo eo liquid water dye",
    "scent_name": "vanilla lavender rose musk lemon cedar cedarwood sandalwood cinnamon pine eucalyptus "
    "peppermint bergamot jasmine lemongrass patchouli clove rosemary smoke mint orange amber fig oud tonka vetiver "
    "neroli basil grapefruit tobacco thyme gardenia geranium chamomile frankincense myrrh verbena freesia magnolia "
    "mimosa",
    "oil": "oil oils",
    "vessel": "form forms dish cans cavity cavities planter jar jars tin tins vessel vessels glass glasses "
    "tumbler tumblers mould moulds mold molds container containers mug mugs bowl bowls ramekin ramekins teacup "
    "teacups bucket",
    "pouring": "pour poured pouring",
}

# How an amount stands, what is asked, what is going on.
CUES: dict[str, str] = {
    "each": "each apiece every cada chaque",
    "empty": "empty empties alone tare bare itself dry",
    "full": "full filled gross incl including included",
    "fill": "fill filled filling fills level line brim",
    "holds": "inner dims dimensions measures holds hold held fits fit takes take room capacity volume inside",
    "left": "left remaining leftover remains remain",
    "spare": "stick sticks stuck stays sticking extra spare spill spillage waste wastage loss losses reserve "
    "margin buffer",
    "limit": "max maximum limit allows allowed recommends recommended suggests stops",
    "meant": "meant instead supposed intended should",
    "strength": "diluted dilution pure strength",
    "molten": "melted molten liquid hot",
    "hot": "melted molten hot boiling",
    "error": "error errors accuracy accurate uncertainty inaccurate precision wrong off",
    "step": "step steps resolution increment increments division divisions readability jumps",
    "smallest": "smallest least minimum min lightest",
    "what": "what whats what's wat wht which wot",
    "weight": "weight weigh weighs weighing weighed wt heavy mass netto weights",
    "percent_word": "percent percentage pct prcnt perc percents pc prozent %",
    "convert": "convert conversion converted equals equal",
    "label": "label labels sticker declare declaration print printed prints",
    "net": "net netto nett",
    "parcel": "deliver delivery postal parcel parcels ship shipping shipment post postage posting mail mailing "
    "package packages courier posted send sending posts sends freight pallet pallets bills billed haulier",
    "volumetric": "volumetric dimensional divisor",
    "buy": "buy buying purchase order ordering shop spend pay cost costs cheaper cheapest price prices",
    "price": "cost costs price prices cheaper cheapest pay spend costing value bargain deal",
    "enough": "enough suffice sufficient",
    "compare": "difference different differ differs same vs versus compare compared bigger smaller larger equal",
    "add": "short missing lacking add adding top",
    "already": "already poured put added dumped accidentally accidently oops dropped used",
    "want": "want wanted need needs needed aiming aim target goal wanna reach wants",
    "have": "have got ive i've hand own bought",
    "split": "split divide divided share shared",
    "both": "both",
    "makes": "make makes making yield yields",
    "why": "why explain meaning understand reason",
    "mean": "mean means meant",
    "us": "us american usa america",
    "uk": "uk british imperial english britain england",
    "warm": "warm cold hot temperature temp",
    "together": "together altogether combined all-in",
    "dense": "density densities dense gravity sg dichte",
    "wide": "radius wide width diameter across dia",
    "high": "high height tall deep depth",
    "long": "long length",
    "square": "square cube cubic rectangular box",
    "volume_word": "volume",
    "safe": "safe ok okay allowed fine dangerous can",
    "rate": "rate per",
    "how": "how hw",
    "much": "much mch many mny",
    "ratio": "ratio ratios proportion",
    "first": "first",
    "second": "second other",
    "bigger": "bigger smaller larger more less heavier lighter",
    "number": "number",
}

# Several words that tell one thing together; they are looked for before single words.
PHRASES: dict[str, str] = {
    "makes": "came to, fill weight, pour weight, filled weight, pouring weight, filling weight, end product, "
    "end up with, ends up, comes to, come to, adds to, has to be, should weigh, must weigh",
    "by_weight": "by weight, by wt, in weight, on the scale, on a scale, on my scale, on scale, on scales, all "
    "weighed, both weighed, by mass, weight ounces, ounces weight, oz weight, weighed on",
    "asks": "how much, how mch, hw mch, hw much, how many, hw mny, hw many, how mny, what amount, what quantity, "
    "how heavy, combien de, wie viel, wie viele, how big",
    "of_total": "total basis, basis total, of the total, of total, of the whole, of whole, of everything, "
    "of the altogether, of the mix, of the mixture, in the finished, in finished, "
    "on the total, on total, of the finished, of the batch, of the candle, "
    "of that total, of the combined, from the "
    "total, of the final, of finished, of the entire, of the product, on the whole, of mix, of its total, of the "
    "end, of final, of the final blend, of final blend, of final mix, of wax plus oil, of wax and oil, "
    "of the wax and oil, of the wax plus oil, of ttl, of the lot, of the whole lot, of it all, of all of it, "
    "calculated on total, of this total, counted on the total, "
    "based on total, based on the total, in the total, from total, of the pour",
    "of_wax": "wax basis, basis wax, of the wax, of wax, on the wax, on wax, of my wax, of the soy, "
    "of that wax, to the wax, "
    "of the base, from the wax, of its wax, based on wax, based on the wax, of the wax's, by wax, from wax, of soy, to "
    "wax weight, of paraffin",
    "flash": "flash point, flash points, flashpoint, flashpoints",
    "left_over": "left over, is over, whats over, what stays, what remains, stays over, what's over, what is "
    "left, whats left",
    "runs_out": "runs out, run out, goes first, used up first, finishes first, out first, ends first, gone first",
    "net": "net wt, net weight, net content, net contents, netto weight",
    "together": "all in, all together, in total, in all, all up, all told, adds up, add up, all of it, put together",
    "dont_mind": "dont mind, don't mind, do not mind, dont care, don't care, do not care, whichever, either way, "
    "both ways, tell me both, give me both, no matter which, not fussed, for either, tell me either, either one, "
    "both readings",
    "dense": "specific gravity, relative density",
    "per_unit": "price per, per kilo, per candle, cost of one, each one, cost per, per pound, per ounce, per "
    "gram, per kg",
    "error": "plus minus, plus or minus, give or take, far off, how wrong, how exact, how accurate, percent off, "
    "how bad",
    "without": "not counted, not counting, without glass, without the glass, without jar, without the jar, "
    "without the pot, without pot, not included, excluding the, without box, minus the jar",
    "finished": "ready to wrap, ready to pack, ready to sell, ready to pour, complete each, each complete, "
    "candles complete, complete candles, complete candle, when all is in, once all is in, with all in it, "
    "finished weight, end weight, in the end, when done, when finished, when its done, final blend, final mix, "
    "incl fragrance, final weight, everything in it, with everything in, scent already in, oil already in, "
    "fragrance already in,"
    "scent included, oil included, incl oil, including oil, including the oil, incl scent, including scent, incl fo, "
    "including fragrance, including the scent, wax and fragrance together, wax and oil together, "
    "wax plus oil, wax"
    " and scent, wax and fragrance",
    "meant": "meant to, supposed to, instead of, should have, was meant, should be",
    "top_up": "how much more, what more, add how much, must i add, more oil, more wax, more scent, more "
    "fragrance, more grams, more ounces, more oz, oil more, scent more, extra wax, extra oil, top up, "
    "topping up, to add, how much extra",
    "wrong": "oh no, by mistake, by accident, too much, too little, too many, too strong, too weak",
    "same": "same as, the same",
    "fill": "fill line, to the line, to the brim, fill level, percent full, filled to, fill to",
    "carrier": "carrier oil, jojoba oil, almond oil",
    "additive": "uv inhibitor, uv stabiliser, uv stabilizer, uv blocker",
    "us": "u s",
    "no_scale": "no scale, dont own a scale, don't have a scale, dont have a scale, don't own a scale, without a scale",
    "half": "half and half, fifty fifty",
}

# Small words that may stand between an amount and its noun and part nothing.
JOINING = (
    "of the a an my our your his her this that these those some is are was were be weigh weighs weighed to it's "
    "its just only exactly about roughly around which has have holds takes hold take shows show says came comes "
    "out melted molten pure plain natural organic nice new old big small large little really actual good ready "
    "hot cold liquid worth goes get gets uses use used own de von den der die das du la le les l d him container "
    "pillar essential clear straight raw dry inside wide their one needs need with total should must will "
    "finished leftover more extra real per-cent bottled i me reads reading equal equals alone empty each for it "
    "been net gross clean strong"
)

# Words of everyday talk that a matcher of slips might take for ours.
EVERYDAY = (
    "respectively costs "
    "shopping chopping dropping whipping skipping slipping stripping shaping packing parking picking scented "
    "scenery handle bundle candles sandal dandle cradle marital metered waited watery waters totals totally "
    "visage fragile fraction fractions liberal material maternal vassal mixtures texture fixture melded pelted "
    "belted empties emptied weights weighs densely intensity dentist converts converse contain contains contained "
    "emptying labelled libel gravity spillages about above after again along already always asking before being below "
    "between black board boat books bother bought boxed break bring brown candy cause change chance clean clear "
    "close could count cover cream daily dense doing dough early earth empty every extra fancy fault feels fever "
    "field final first float floor flour found fresh front gifts given glove going grand grass great green group "
    "guess hello honey house human label lately later layer leave level light liked limit lines local looks loose"
    " lower lucky maker maybe meant meter might money month mouth music never newly night noise north nurse offer"
    " often order other outer paint panel pants paper party patch paste phone piece pinch place plain plate point"
    " pound power price print prize proud pulls purse quick quiet quite radio range ratio ready right river rough"
    " round salty sauce saved scale scene scold score sense serve seven shade share sharp sheet shelf shift ships"
    " short should since skill sleep small smart smoke snack solid sorry sound south space spare speak spend "
    "spent spice spoke spray stage stamp stand start state steam steel steps stick still stock stone store storm "
    "story study stuff style sugar super sweet swift table taken taste taxes thank their there these thing think "
    "third those three throw times title today tools torch touch towel track trade train treat trial trick tried "
    "truck truly trust twice under until upper usual value video visit voice wants waste watch wheel where which "
    "while white whole whose woman women world worry worse worst worth would write wrong young yours tint tiny "
    "tins tons mole mold mall malls built cases burn burns burning heats heater melting during mother father "
    "brother sister cousin friend people please should because something anything nothing everyone christmas "
    "wedding birthday thanks another without within outside inside against better bigger smaller wanted waiter "
    "weather whether either neither matter letter little bottom button cotton common summer winter dinner number "
    "member remember content contents extent intent event events accent ascent decent recent descent patent "
    "parent present percent agent spent vent scenes saint stent silent talent client moment cement element "
    "payment easter sister master faster plaster"
)
