"""What people type by mistake, by accident or to try the bot out; and what must come back, however it is asked.

`Bad.says` is part of the answer to the plain words, `slash_says` of the answer to the same as options of /load.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from core.reading.visible import visible

WORKED = "36 g (1.27 oz) of fragrance oil"


@dataclass(frozen=True, slots=True)
class Bad:
    """`slash` empty: there is nothing to fill in. `kinds` are those of the JSON form that are right."""

    plain: str
    says: str
    kinds: str = "not_understood"
    slash: tuple[tuple[str, str], ...] = ()
    slash_says: str = ""

    @property
    def form(self) -> str:
        """The options as one typed line."""
        return " ".join(["/load", *(f"{name}:{text}" for name, text in self.slash)])


def load(wax: str, percent: str = "8%") -> tuple[tuple[str, str], ...]:
    return (("wax", wax), ("load", percent))


ASK = "how much fragrance?"
BAD = {
    "6000 characters": Bad("9" * 6000, "one thing", slash=load("9" * 5500), slash_says="too long"),
    "6000 characters of questions": Bad(f"450 g wax at 8 %, {ASK} " * 150, "one thing"),
    "6000 brackets": Bad("(" * 3000 + "450 g" + ")" * 2995, "one thing", slash=load("(" * 900), slash_says="no amount"),
    "nested brackets": Bad(f"((((((450 g)))))) wax at ((8 %)), {ASK}", WORKED, "worked", load("((450 g))"), WORKED),
    "NaN": Bad(f"NaN g of wax at 8 %, {ASK}", "weight", "missing", load("NaN"), "no amount in “NaN”"),
    "inf": Bad(f"inf g of wax at 8 %, {ASK}", "weight", "missing", load("inf"), "no amount in “inf”"),
    "minus infinity": Bad(f"-Infinity g of wax at 8 %, {ASK}", "weight", "missing", load("-Infinity"), "no amount"),
    "1e400": Bad(f"1e400 g wax at 8 %, {ASK}", "too large", slash=load("1e400 g"), slash_says="too large"),
    "1e400 %": Bad(f"450 g wax at 1e400 %, {ASK}", "too large", slash=load("450 g", "1e400 %"), slash_says="too large"),
    "negative": Bad(f"-450 g wax at 8 %, {ASK}", "less than nothing", slash=load("-450 g"), slash_says="minus sign"),
    "negative load": Bad(
        f"450 g wax at -8 %, {ASK}", "more than 0 %", slash=load("450 g", "-8%"), slash_says="minus sign"
    ),
    "zero wax": Bad(f"0 g wax at 8 %, {ASK}", "nothing to take a percent of", "missing", load("0 g"), "nothing"),
    "0 %": Bad(f"450 g wax at 0 %, {ASK}", "more than 0 %", slash=load("450 g", "0%"), slash_says="more than 0 %"),
    "150 %": Bad(f"450 g wax at 150 %, {ASK}", "150 %", "declined", load("450 g", "150%"), "no wax holds that much"),
    "power": Bad(f"9**9**9**9 g wax at 8 %, {ASK}", "powers", slash=load("9**9**9**9"), slash_says="weight"),
    "power alone": Bad("9**9**9**9", "powers"),
    "unknown unit": Bad(f"450 gg of wax at 8 %, {ASK}", "the unit “gg”", slash=load("450 gg"), slash_says="Use g, kg"),
    "nearly a unit": Bad(f"450 gramps of wax at 8 %, {ASK}", "", "", load("450 gramps"), ""),
    "contradictory weights": Bad(f"16 oz (300 g) of wax at 8 %, {ASK}", "weight", "", load("16 oz (300 g)"), "not the"),
    "cyrillic": Bad("450 г воска, 8 %", "", "missing not_understood", load("450 г"), "the unit “г”"),
    "arabic figures": Bad(f"٤٥٠ g wax at ٨٪, {ASK}", WORKED, "worked", load("٤٥٠ g", "٨٪"), WORKED),
    "wide signs": Bad(f"４５０ｇ wax at ８％, {ASK}", WORKED, "worked", load("４５０ g", "８％"), WORKED),
    "mixed scripts": Bad("蜡 wax воск شمع at %", "", "missing not_understood", load("蜡 wax воск"), "no amount"),
    "right to left": Bad(f"\u202e450 g wax\u202c at 8 %, {ASK}", WORKED, "worked", load("\u200f450 g\u2069"), WORKED),
    "right to left words": Bad("\u202eelbaton\u202c", "didn't get that", slash=load("\u202etsav"), slash_says="“tsav”"),
    "everyone": Bad(
        "@everyone @here <@1234> <@&5> <#6>", "didn't get", slash=load("@everyone"), slash_says="no amount"
    ),
    "mention and question": Bad(f"@everyone 450 g wax at 8 %, {ASK}", WORKED, "worked", load("<@1234> 450 g"), WORKED),
    "markdown": Bad("# ||x|| ~~y~~ [a](https://example.org)", "", slash=load("**a** __b__ ||c||"), slash_says="no am"),
    "bold figures": Bad(f"**450 g** wax at __8 %__, {ASK}", WORKED, "worked"),
    "code fence": Bad(f"```450 g wax at 8 %, {ASK}```", WORKED, "worked", load("```about```"), "no amount"),
    "open fence": Bad("``` `` ` ```` ```", "didn't get that", slash=load("``` `` `"), slash_says="no amount"),
    "null bytes": Bad(f"450\x00 g wax\x00 at 8 %, {ASK}", WORKED, "worked", load("450\x00g"), WORKED),
    "nothing but null bytes": Bad("\x00\x00", "didn't get that", slash=load("\x00"), slash_says="wax"),
    "escape signs": Bad("\x1b[31mred\x1b[0m", "didn't get that", slash=load("\x1b[Jred"), slash_says="no amount"),
    "quotes": Bad("\"'“”‘’«»", "didn't get that", slash=load("\"'“"), slash_says="wax"),
    "sql": Bad("'; DROP TABLE record; --", "", slash=load("'; DROP TABLE record; --"), slash_says="no amount"),
    "template": Bad("{0} {wax.__class__} %s %(a)s", "", slash=load("{wax} {a!r}"), slash_says="in “{wax} {a!r}”"),
}

MOST = 2000  # characters of an answer to any of these: a sentence and its way out, not a flood
_ESCAPED = re.compile(r"\\.", re.DOTALL)


def readable(text: str, says: str) -> None:
    """What holds for every answer in every place."""
    assert text.strip()
    assert says in text, text
    assert len(text) <= MOST
    assert "Traceback" not in text
    assert "Error" not in text
    assert "None" not in text
    assert visible(text.replace("\u200b", "")) == text.replace("\u200b", ""), "a sign that nobody sees"


def harmless_markup(text: str) -> None:
    """No mention that could ring, no link of somebody else's, no marks left open."""
    bare = _ESCAPED.sub("", text)
    assert not re.search(r"@everyone|@here|<[@#:]|://", bare)
    for line in bare.split("\n"):
        assert line.count("**") % 2 == line.count("`") % 2 == 0, line
        for mark in ("``", "||", "~~", "__", "[", "]("):
            assert mark not in line, line
        assert not line.startswith(("#", ">", "-# -#")), line
