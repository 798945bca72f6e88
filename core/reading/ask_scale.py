"""Texts about scales: the question scale."""

from __future__ import annotations

import itertools
from decimal import Decimal

from core.answer import Answer
from core.compounds import Masses
from core.question import Question
from core.questions.scale import ScaleQuestion
from core.reading import asking
from core.reading.chain import chained
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.units import Mass, Percent

Outcome = Question | Answer | None
Weighing = tuple[str, Mass]


def scale(g: Givens) -> Outcome:
    """How far off a weighing may be on a scale of given steps."""
    masses = g.scan.masses()
    steps = [m for m in masses if _names_step(g, m)] or [m for m in masses if _is_step(g, m)]
    if len(steps) == len(masses) > 1 and len(named := [m for m in steps if _beside_step_word(g, m)]) == 1:
        steps = named  # "5 g step kitchen scale for 40 g": the word is of the one
    steps += _either_step(g, masses, steps)
    most = [m for m in masses if m["limit"] and m not in steps and steps and not _most_error(g)]
    others = [m for m in masses if m not in steps and m not in most]
    error = g.shares.error or _error(g)
    if error is None and not masses and len(g.shares.loads) == 1 and not g.has("wax_itself"):
        error = g.shares.loads[0].percent
    if not masses and error is not None and _whole_grams(g) and (g.has("error") or g.scan.says(_FINE)):
        return ScaleQuestion(step=Mass.of(1, "g"), error=error)  # "from how much oil on is it good to 2 %"
    if steps and not others and error is None and _asks_error(g) and not g.shares.loads:
        return asking.weighing_missing(ScaleQuestion(step=mass_of(steps[0])))
    mixing = bool(g.shares.loads) and g.has("wax_itself")
    if not steps and len(others) == 1 and _whole_grams(g) and not mixing:
        return ScaleQuestion(step=Mass.of(1, "g"), weighing=Masses(tuple(_weighings(g, others))))
    if (between := _load_between(g, steps)) is not None:
        return between
    sizes = [size for m in steps for size in _ends(m)]
    if len(steps) == len(others) == 2:
        pairs = zip(steps, others, strict=True)
        return chained(g.book, *(ScaleQuestion(step=mass_of(a), weighing=Masses.one(mass_of(b))) for a, b in pairs))
    if len(sizes) > 1 and len(others) == 1:
        weighing = Masses.one(mass_of(others[0]), others[0].name)
        return chained(g.book, *(ScaleQuestion(step=size, weighing=weighing) for size in sizes))
    within = error is not None and g.scan.says(("within", "exact", "exactly"))
    if (not steps and not g.has("error", "smallest") and not within) or len(sizes) > 1:
        return None
    if (mixed := _mix_on_scale(g, sizes, others)) is not None:
        return mixed
    if len(sizes) == 1 and (oil := _oil_of_the_load(g, others)) is not None:
        return ScaleQuestion(step=sizes[0], weighing=Masses.one(mass_of(oil), oil.name))
    if g.shares.loads and (
        g.has("wax_itself") or error is None or any(m.of == "fragrance" for m in g.scan.kind("percent"))
    ):
        return None  # a load that is to be weighed, with the scale's step as a side remark
    if sizes and (often := _times_over(g, others)) is not None:
        return ScaleQuestion(step=sizes[0], weighing=Masses.one(mass_of(often[0])), times=often[1])
    weighings = _weighings(g, others)
    if not steps and len(weighings) < 1 and not g.has("scale"):
        return None
    return ScaleQuestion(
        step=sizes[0] if sizes else None, weighing=Masses(tuple(weighings)) if weighings else None, error=error
    )


def _asks_error(g: Givens) -> bool:
    """ "My error in %?", "how far off?": of a weight, which is missing; "the smallest amount" is another question."""
    return (g.asks_percent or g.has("error")) and not g.has("smallest", "enough")


_FINE = wordset("good fine exact accurate within enough ok okay trust")


def _mix_on_scale(g: Givens, sizes: list[Mass], others: list[Measured]) -> Outcome:
    """ "500 g of wax, 8 % oil, a scale of 1 g steps": the oil, and the load the scale lets it be."""
    waxes = [m for m in others if m.of in ("wax", "")]
    if len(sizes) != 1 or len(g.shares.loads) != 1 or len(others) != 1 or len(waxes) != 1:
        return None
    if len(g.scan.kind("percent")) != 1 or g.scan.kind("number") or mass_of(waxes[0]).base < sizes[0].base * LEAST_WAX:
        return None
    return ScaleQuestion(step=sizes[0], wax=Masses.one(mass_of(waxes[0])), load=g.shares.loads[0])


LEAST_WAX = 20  # steps of the scale; less is what is weighed on it, and no wax for a mix


def _oil_of_the_load(g: Givens, others: list[Measured]) -> Measured | None:
    """ "20 g wax and 8 %, so 1.6 g oil, scale has 1 g steps: how far off?": the oil is what is weighed."""
    if len(g.shares.loads) != 1 or len(others) != 2 or not _asks_error(g):
        return None
    wax, oil = sorted(others, key=lambda m: -mass_of(m).base)
    worked = mass_of(wax).base * g.shares.loads[0].percent.fraction
    if oil.of not in ("fragrance", "") or worked != mass_of(oil).base:
        return None
    g.used.update(m.at for m in (wax, *g.scan.kind("percent")))
    return oil


def _times_over(g: Givens, others: list[Measured]) -> tuple[Measured, int] | None:
    """ "4 times 5 g", "the 4 g ten times over": one weight weighed again and again."""
    marks = g.scan.marks
    for m in g.scan.kind("number"):
        after = marks[m.at + 1 : m.at + 3]
        if not after or after[0].text not in ("times", "x") or m.amount.value != int(m.amount.value):
            continue
        count = int(m.amount.value)
        weighed = [x for x in others if x.at == m.at + 2] or [x for x in others if 0 < m.at - x.at <= 4]
        whole = [x for x in others if x not in weighed]
        fits = len(weighed) == 1 and count > 1 and weighed[0].amount.high is None
        if fits and all(mass_of(x).base == mass_of(weighed[0]).base * count for x in whole):
            g.used.update((m.at, *(x.at for x in whole)))
            return weighed[0], count
    return None


def whole_grams(g: Givens) -> Outcome:
    """ "5 grams on one that shows whole grams": its step told, without the word."""
    alone = not g.scan.masses() and g.scan.says(_FINE)
    return scale(g) if _whole_grams(g) and (alone or not g.shares.loads) else None


def _weighings(g: Givens, others: list[Measured]) -> list[Weighing]:
    """What is weighed; one of it and several at once, where both are spoken of."""
    found = [(m.name if m.of != "scale" else "", mass) for m in others for mass in _ends(m)]
    marks = g.scan.marks
    for m in g.scan.kind("number"):
        ahead = marks[m.at + 1 : m.at + 5]
        after = [mark.text for mark in ahead[bool(ahead) and ahead[0].noun in ("candle", "jar") :]]
        several = m.amount.value > 1 and (after[:2] in (["at", "once"], ["in", "one"]) or after[:1] == ["together"])
        if len(found) == 1 and several:
            name, one = found[0]
            return [(name, one), (name, one * m.amount.value)]
    return found


_RANGING = wordset("between lowest highest really range least most real from actual true min max anywhere")


def _load_between(g: Givens, steps: list[Measured]) -> Outcome:
    """ "100 g wax, 8 g oil, steps of 1 g: my real load is between?": what the step does to the load."""
    if len(steps) != 1 or g.shares.loads or not g.asks_percent or not g.scan.says(_RANGING):
        return None
    wax = [m for m in g.scan.masses("wax") if m not in steps]
    oil = [mass_of(m) for m in g.scan.masses("fragrance") if m not in steps]
    unit = wax[0].amount.unit if wax else ""
    oil += [Mass.of(m.amount.value, unit) for m in g.scan.kind("number") if unit and m.of == "fragrance"]
    if len(wax) != 1 or len(oil) != 1:
        return None
    return ScaleQuestion(step=mass_of(steps[0]), wax=Masses.one(mass_of(wax[0])), fragrance=oil[0])


def _whole_grams(g: Givens) -> bool:
    """ "It shows whole grams": steps of one gram."""
    marks = g.scan.marks
    apart = any(
        a.text in ("whole", "full", "only") and b.text in ("grams", "gram", "g") and b.kind != "amount"
        for a, b in itertools.pairwise(marks)
    )
    return apart or any(mark.text in ("whole", "full") and mark.unit == "g" for mark in marks)


_NO_KIND_OF_SCALE = wordset("on by with and the my a same from of no without own")
_STEP_OF = wordset(
    "that which just can only in",
    "( of is : = has with only does goes up by jumps counts count reads to in accurate shows weighs measures",
)
_ANOTHER = wordset("one other second")


def _names_step(g: Givens, m: Measured) -> bool:
    """ "A 0.1 g scale", "steps of 2 g", "on a 0.01 g one"."""
    after = g.scan.marks[m.at + 1] if m.at + 1 < len(g.scan.marks) else None
    if after is not None and after.text in ("one", "ones") and g.has("scale") and _on_a(g, m):
        return True
    return m["step"] or (after is not None and (after.noun == "scale" or _scale_follows(g, m))) or _listed_step(g, m)


def _beside_step_word(g: Givens, m: Measured) -> bool:
    """ "5 g steps", "steps of 5 g": nothing else stands between."""
    marks = g.scan.marks
    after = marks[m.at + 1 : m.at + 2]
    before = [mark for mark in marks[max(0, m.at - 2) : m.at] if mark.text not in ("of", "is", ":", "=", "in")]
    return any("step" in mark.tags for mark in (*after, *before[-1:]))


def _most_error(g: Givens) -> bool:
    """ "Max error": the word is no limit of the scale."""
    pairs = itertools.pairwise(g.scan.marks)
    return any("limit" in one.tags and "error" in two.tags for one, two in pairs)


def _either_step(g: Givens, masses: list[Measured], steps: list[Measured]) -> list[Measured]:
    """The second of "which scale, 1 g or 0.1 g": it stands right behind the one that is a step, and of nothing else."""
    if len(steps) != 1 or len(masses) < 3:
        return []
    marks, at = g.scan.marks, steps[0].at
    beside = [m for m in masses if m.at == at + 2 and marks[at + 1].text in ("or", "vs", "versus")]
    return [m for m in beside if _on_a_scale(m) and m.of in ("", "scale")]


def _on_a(g: Givens, m: Measured) -> bool:
    before = [mark.text for mark in g.scan.marks[max(0, m.at - 2) : m.at]]
    return before[-1:] in (["a"], ["the"], ["my"], ["an"])


def _listed_step(g: Givens, m: Measured) -> bool:
    """The first of "a 1 g and a 0.1 g scale", or either of "scale by 1 g, the other one by 0.1 g"."""
    return _is_step(g, m) and any(_is_step(g, other) for other in g.scan.masses() if other is not m)


def _is_step(g: Givens, m: Measured) -> bool:
    """ "My scale is 1 g", "the scale goes up in 5 g", "the other one by 0.1 g"; not "my scale when I weigh 5 g"."""
    if not _on_a_scale(m):
        return False  # "scale shows 1.5 lb": what it weighed
    i = m.at - 1
    while i >= 0 and g.scan.marks[i].text in _STEP_OF:
        i -= 1
    if i < 0 or (i == m.at - 1 and g.scan.marks[i].text in _ANOTHER):
        return False
    return g.scan.marks[i].noun == "scale" or (g.scan.marks[i].text in _ANOTHER and g.has("scale"))


# By EN 45501 a scale's step is 1, 2 or 5 of a decimal place; kitchen scales in ounces have fractions besides.
_STEPS = frozenset(Decimal(step) for step in ("1", "2", "5", "1.25", "2.5"))
_COARSEST = Decimal(100)


def _on_a_scale(m: Measured) -> bool:
    """Whether scales with such a step are made."""
    value = m.amount.value
    if m.amount.parts or value <= 0 or mass_of(m).base > _COARSEST:
        return False
    return value.scaleb(-value.adjusted()).normalize() in _STEPS


def _scale_follows(g: Givens, m: Measured) -> bool:
    """ "A 1 g kitchen scale"."""
    near = g.scan.marks[m.at + 1 : m.at + 3]
    return (
        len(near) == 2 and near[1].noun == "scale" and near[0].kind == "word" and near[0].text not in _NO_KIND_OF_SCALE
    )


def _error(g: Givens) -> Percent | None:
    percents = g.scan.kind("percent")
    return Percent(percents[0].amount.value) if len(percents) == 1 else None


def _ends(m: Measured) -> list[Mass]:
    """Both ends of "2 g or 20 g"."""
    low = mass_of(m)
    return [low] if m.amount.high is None else [low, Mass.of(m.amount.high, m.amount.unit)]
