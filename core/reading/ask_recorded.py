"""Texts that name what the group recorded: "winter pine for 2 kg of wax", "6 amber tins at 7 %"."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterator

from core.answer import Answer
from core.compounds import Fill, Fills, FormulaName, Masses, VesselName
from core.question import Question
from core.questions.batch import BatchQuestion
from core.questions.formulas import CompareFormulas, FormulaQuestion
from core.questions.vessel import VesselQuestion
from core.reading.counts import pairs_of
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.units import Mass

Outcome = Question | Answer | None

MOST_WORDS = 40  # of a text, looked at as the beginning of a name
LONGEST = 4  # words of a name
FEW = 100  # recorded names
_WORD = re.compile(r"[^\W_][\w'’-]*")
_VERSIONS = re.compile(
    r"\bv(?:ersions?)? ?(\d{1,4})(?: ?(?:and|&|,|to|with|against|vs) ?(?:v(?:ersion)? ?)?(\d{1,4}))?", re.IGNORECASE
)
_SPEAKS_OF_IT = wordset("formula formulas recipe recipes version make making batch mix")
_COMPARES = wordset("compare versus vs differ difference different")


def formula(g: Givens) -> Outcome:
    """A recorded formula: what is in it, for so much wax or in all, in so many vessels; or two side by side."""
    names = list(named(g, "formula", lambda name: g.book.formula(name) is not None))
    if not names:
        return None
    versions = _versions(g)
    if g.scan.says(_COMPARES):
        other = FormulaName(names[1]) if len(names) > 1 else None
        first, second = (*versions, None, None)[:2]
        return CompareFormulas(name=FormulaName(names[0]), other=other, version=first, other_version=second)
    if len(names) > 1 or g.shares.loads or not _meant(g, names[0]):
        return None  # which of them, or at another load than recorded: not this formula as it stands
    name, version = FormulaName(names[0]), versions[0] if versions else None
    pairs = [(count, m) for count, m in pairs_of(g) if isinstance(m.value, Mass) and count not in versions]
    if pairs:
        fills = Fills(tuple(Fill(count, weight=mass_of(m)) for count, m in pairs))
        return FormulaQuestion(name=name, version=version, fills=fills)
    masses = g.scan.masses()
    if (filled := _recorded_vessels(g, versions)) is not None and not masses and not g.scan.volumes():
        return FormulaQuestion(name=name, version=version, fills=filled)
    if len(masses) > 1 or g.scan.volumes():
        return None
    of_the_mix = masses and (masses[0].of == "total" or _right_behind(g, masses[0], names[0]))
    if masses and (of_the_mix or masses[0].flags & {"together", "finished", "makes"}):
        return FormulaQuestion(name=name, version=version, total=mass_of(masses[0]))
    wax = Masses.one(mass_of(masses[0])) if masses else None
    return FormulaQuestion(name=name, version=version, wax=wax)


def vessels(g: Givens) -> Outcome:
    """So many of a recorded vessel, or what one of them takes."""
    if g.scan.masses() or g.scan.volumes():
        return None
    names = list(named(g, "vessel", lambda name: g.book.vessel(name) is not None))
    if len(names) != 1:
        return None
    counts = [m for m in g.scan.kind("number") if _whole(m)]
    if len(counts) > 1:
        return None
    dense, material = g.density(), g.material()
    if not counts or not g.shares.loads:
        count = int(counts[0].amount.value) if counts else None
        return VesselQuestion(
            vessel=VesselName(names[0]), count=count, density=dense, material=material, level=g.shares.level
        )
    fills = Fills((Fill(int(counts[0].amount.value), vessel=names[0]),))
    return BatchQuestion(
        fills=fills,
        load=g.shares.load,
        spare=g.shares.spare,
        blend=g.shares.blend,
        density=dense,
        material=None if dense is not None else material,
    )


def _recorded_vessels(g: Givens, versions: list[int]) -> Fills | None:
    """ "12 amber tins" of what has been recorded under that name."""
    if not g.book.names("vessel", "", 1):
        return None
    names = list(named(g, "vessel", lambda name: g.book.vessel(name) is not None))
    counts = [m for m in g.scan.kind("number") if _whole(m) and int(m.amount.value) not in versions]
    if len(names) != 1 or len(counts) != 1:
        return None
    return Fills((Fill(int(counts[0].amount.value), vessel=names[0]),))


def _meant(g: Givens, name: str) -> bool:
    """Whether the recorded formula is spoken of, not a scent or a wax of the same name: "10 g of pine in oz"."""
    if g.scan.says(_SPEAKS_OF_IT) or _versions(g):
        return True
    masses = g.scan.masses()
    return " " in name and not g.has("convert") and not any(_right_behind(g, m, name) for m in masses)


def _right_behind(g: Givens, m: Measured, name: str) -> bool:
    """ "500 g of winter pine"."""
    behind = g.scan.text[m.amount.end :].strip().casefold().removeprefix("of ")
    return behind.startswith(name.casefold())


def _whole(m: Measured) -> bool:
    return m.amount.value >= 1 and m.amount.value == m.amount.value.to_integral_value() and not m.amount.unit


def _versions(g: Givens) -> list[int]:
    """ "Version 2", "versions 1 and 3", "v2"."""
    found = _VERSIONS.search(g.scan.text)
    return [int(number) for number in found.groups() if number] if found else []


def named(g: Givens, kind: str, recorded: Callable[[str], bool]) -> Iterator[str]:
    """The recorded names in the text, longest first where they overlap; a plural counts as its one. Where there are
    few names, only what is one of them is looked up."""
    few = g.book.names(kind, "", FEW)
    if not few:
        return
    there = {_folded(name) for name in few} if len(few) < FEW else None

    def known(name: str) -> bool:
        return (there is None or _folded(name) in there) and recorded(name)

    words = _WORD.findall(g.scan.text)[:MOST_WORDS]
    i = 0
    while i < len(words):
        for n in range(min(LONGEST, len(words) - i), 0, -1):
            name = " ".join(words[i : i + n])
            single = name.removesuffix("s")
            found = next((each for each in dict.fromkeys((name, single)) if len(each) > 2 and known(each)), None)
            if found is not None:
                yield found
                i += n - 1
                break
        i += 1


def _folded(name: str) -> str:
    """What names are compared by: case, width and blanks don't count."""
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())
