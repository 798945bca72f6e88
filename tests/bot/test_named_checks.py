"""The checks from outside that the workshop's answers must pass, put to the program as somebody would type them.

Each is also checked where its sum is made; here the whole way is: command, answer, what is shown, what JSON says.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from bot.desk import LOCAL, Desk
from bot.record import record
from core.book import Preferences


def asked(text: str) -> dict[str, Any]:
    """What a program gets."""
    return record(text, Desk(None).text(text, LOCAL), Preferences())


def figure(answer: dict[str, Any], what: str, unit: str) -> float:
    """One result in one unit; there must be exactly one."""
    (found,) = [each["value"] for each in answer["results"] if (each["what"], each["unit"]) == (what, unit)]
    return float(found)


@pytest.mark.parametrize(
    ("text", "figures", "shown"),
    [
        # ISO 8655-6:2002 Annex A, 20 °C and 1013 hPa: Z = 1.0029 ml/g, so 252.0 g of water take 252.73 ml.
        ("/vessel empty:150 g full:402 g at:20 °C", {("room", "ml"): 252.7308}, ["252.7 ml"]),
        # Ideal mixing, 1/ρ = Σ w/ρ: 1 ÷ (0.5/0.8 + 0.5/1.2) = 0.9600, by hand; marked as an estimate.
        ("/blend parts:0.5/0.5 densities:0.8, 1.2", {("density", "g/ml"): 0.96}, ["0.96 g/ml", "estimate"]),
        # By hand: 2 × 18 + 39 = 75 for exactly 9 kg; 5 × 18 = 90 and 2 × 39 = 78 alone.
        (
            "/buy need:9 kg packs:2 kg 18 eur, 5 kg 39 eur candle:180 g",
            {
                ("cost", "eur"): 75,
                ("left_over", "g"): 0,
                ("packs_2kg", "count"): 2,
                ("packs_5kg", "count"): 1,
                ("cost_per_g", "eur"): 75 / 9000,
                ("cost_per_oz", "eur"): 75 / 9000 * 28.349523125,
                ("cost_per_candle", "eur"): 1.5,
            },
            ["€75.00", "per g", "per oz", "One candle"],
        ),
        # 16 CFR 500.19 and the examples of 500.16: factor 28.3495 g, three digits, the rest cut off.
        ("/label net:8 oz", {}, ["“Net Wt 8 oz (226 g)”", "Check your local rules"]),
        ("/label net:200 g", {}, ["“Net Wt 7.05 oz (200 g)”"]),
        ("/label net:20 oz", {}, ["“Net Wt 1 lb 4 oz (566 g)”"]),
        # 16 CFR 500.21: over 5 to 25 in² of front, 1/8 in; 500.6: the lowest 30 %, of 3.5 in 1.05 in.
        (
            "/label net:8 oz panel_height:3.5 in panel_width:2 in",
            {("type_height", "mm"): 3.2, ("panel_area_in2", "count"): 7},
            ["1/8 in", "lowest 1.05 in"],
        ),
        # Directive 76/211/EEC Annex I 2.4: 9 g for 200 to 300 g; T1 = 200 − 9, T2 = 200 − 18.
        (
            "/label net:200 g rules:EU and UK",
            {("tne", "g"): 9, ("t1", "g"): 191, ("t2", "g"): 182, ("nominal", "g"): 200},
            ["“200 g”", "local rules"],
        ),
        # The same figures for a lot: its average is 201 − by hand − and one of four lies below 191 g.
        (
            "/lot label:200 g weights:205 g, 205 g, 190 g, 204 g rules:EU and UK",
            {("mean", "g"): 201, ("passed", "count"): 0},
            ["Fails the EU and UK rules", "local rules"],
        ),
        # NIST Handbook 133, Table 2-5: 0.028 lb (12.7 g) under 8 oz is the most one package may be short of: 214.1 g.
        (
            "/lot label:8 oz weights:8 oz, 8.1 oz, 214 g, 240 g rules:US",
            {("under_allowed", "count"): 1, ("passed", "count"): 0},
            ["Fails the US rules"],
        ),
        ("/lot label:8 oz weights:8 oz, 8.1 oz, 214.2 g, 240 g rules:US", {("passed", "count"): 1}, ["Passes"]),
        # By hand: 4 × (9 + 8 + 1.2) + 14 = 86.8 oz = 5 lb 6.8 oz; a pound is 453.59237 g.
        (
            "/parcel vessel:9 oz fill:8 oz lid:1.2 oz count:4 packing:14 oz",
            {("parcel", "oz"): 86.8, ("parcel", "lb"): 5.425, ("parcel", "g"): 86.8 * 28.349523125},
            ["5 lb 6.8 oz", "2.461 kg"],
        ),
        # By hand: 30 × 25 × 20 ÷ 5000 = 3 kg of size against 2.35 kg of weight.
        (
            "/parcel candle:500 g count:4 box:350 g length:30 cm width:25 cm height:20 cm divisor:5000 rounding:0.5 kg",
            {("volumetric", "kg"): 3, ("charged", "kg"): 3, ("parcel", "g"): 2350},
            ["Charged by size"],
        ),
        # JCGM 100:2008: a reading of step d lies within ±d/2, its standard uncertainty is d/√12.
        (
            "/scale step:1 g weighing:36 g",
            {("off", "g"): 0.5, ("uncertainty", "g"): 1 / math.sqrt(12), ("error", "percent"): 50 / 36},
            ["±1.39 %", "beaker"],
        ),
        # d/2 of 5 g is 1 %, by hand.
        ("/scale step:0.1g weighing:2g error:1%", {("smallest", "g"): 5}, ["too coarse"]),
        # OIML R 76-1 Table 3: class III from 20 e on.
        ("/scale step:1 g accuracy:III weighing:15 g", {}, ["not made for less than 20 g"]),
        # By hand: 20 × 60 × 1.05 = 1260 g of wax and a tenth of it.
        (
            "/batch fills:20 x 60 g fill_is:wax alone load:10% spare:5%",
            {("wax", "g"): 1260, ("fragrance", "g"): 126, ("total", "g"): 1386},
            ["Weigh in this order", "add up to 1386 g, exactly"],
        ),
        # By hand: 100 g of oil at 8 % go with 1250 g of wax, 1350 g in all: six candles of 200 g.
        ("/stock wax:2.4 kg fragrance:100 g load:8% each:200 g", {("count", "count"): 6}, ["runs out first"]),
        # By hand: 90 g are 8 % of 1125 g; 8 % of 900 g are 72 g.
        ("/rescue wax:900 g fragrance:90 g load:8%", {("add_wax", "g"): 225}, []),
        ("/rescue wax:900 g fragrance:50 g load:8%", {("add_fragrance", "g"): 22}, []),
        # By hand: 39 × 4.5 ÷ 5 + 24 × 1.30 = 66.30.
        (
            "/cost count:24 wax:4.5 kg wax_price:39 eur wax_pack:5 kg vessel:1.20 eur wick:0.10 eur",
            {("cost_total", "eur"): 66.3, ("cost_per_candle", "eur"): 66.3 / 24},
            ["€66.30", "€2.76"],
        ),
        # (°F − 32) × 5 ÷ 9 by definition.
        ("/convert amount:185 °F to:°C", {("temperature", "degC"): 85}, ["85 °C"]),
    ],
)
def test_a_named_check_holds_from_end_to_end(
    text: str, figures: dict[tuple[str, str], float], shown: list[str]
) -> None:
    answer = asked(text)
    assert answer["kind"] in ("worked", "missing"), answer["text"]
    for (what, unit), expected in figures.items():
        assert figure(answer, what, unit) == pytest.approx(expected, rel=1e-9), what
    for words in shown:
        assert words in answer["text"], answer["text"]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("/buy need:9 kg packs:0 kg 3 eur", "must hold something"),
        ("/buy need:9 kg packs:50 wicks 6 eur", "the same way"),
        ("/buy need:9 kg packs:2 kg 18 eur, 5 kg 39 usd", "different currencies"),
        ("/buy need:9 kg packs:500 ml 12 eur", "I need the density"),
        ("/buy need:9999999 kg packs:1 g 1 eur", "more than 1,000,000 packs"),
        ("/lot label:200 g weights:198 g", "One candle is no lot"),
        ("/vessel empty:200 g full:150 g", "Are the two weights swapped?"),
        ("/vessel diameter:7 cm height:5 cm headspace:6 cm", "no room is left for wax"),
        ("/batch fills:200000 x 200 g load:8%", "up to 100,000 vessels"),
        (f"/batch load:8% fills:{'1 x 9 g, ' * 201}", "up to 200 kinds of vessels"),
        ("/batch fills:12 x 200 ml load:8%", "I need the wax's density"),
        ("/parcel vessel:100 g fill:200 ml count:12", "is a volume; I need a weight"),
        ("/convert amount:75 °C to:g", "measures something else"),
    ],
)
def test_what_has_no_answer_gets_a_sentence(text: str, says: str) -> None:
    answer = asked(text)
    assert answer["kind"] in ("missing", "not_understood", "choice"), answer["text"]
    assert says in answer["text"]
    assert len(answer["text"].splitlines()[0]) < 300
