"""Blends: shares that add up, and the density of ideal mixing against computed values and both of its forms."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from core import ask
from core.answer import Missing, NotUnderstood, Origin, Worked, results_by_name
from core.book import EmptyBook
from core.compounds import Parts
from core.questions.blend import BlendQuestion
from core.units import Mass
from tests.core.questions.workbench import Workbench, parts, shown

BOOK = EmptyBook()


def figures(question: BlendQuestion) -> dict[str, Decimal]:
    answer = question.answer(BOOK)
    assert isinstance(answer, Worked), answer
    shown(answer)
    return {name: value.base for name, value in results_by_name(answer).items()}


@pytest.mark.parametrize(
    ("shares", "densities", "expected"),
    [
        # Ideal mixing, 1/ρ = Σ w/ρ (textbook form for mass fractions), worked with a calculator:
        (("0.5", "0.5"), ("0.8", "1.2"), "0.96"),
        (("60", "40"), ("0.842", "1.067"), "0.91956"),
        (("5", "3", "2"), ("0.843", "0.970", "1.120"), "0.925095"),
        (("90", "10"), ("0.90", "0.95"), "0.904762"),
    ],
)
def test_density_of_a_blend(shares: tuple[str, ...], densities: tuple[str, ...], expected: str) -> None:
    density = figures(BlendQuestion(parts=parts(*shares), densities=parts(*densities)))["density"]
    assert float(density) == pytest.approx(float(expected), abs=5e-6)


def test_the_estimate_is_off_by_a_few_percent_at_most_for_alcohol_and_water() -> None:
    # Reference: aqueous ethanol of mass fraction 0.5 at 20 °C, and the pure liquids (CoolProp).
    pure = [PropsSI("D", "T", 293.15, "P", 101325, each) / 1000 for each in ("Ethanol", "Water")]
    real = PropsSI("D", "T", 293.15, "P", 101325, "INCOMP::MEA[0.5]") / 1000
    question = BlendQuestion(parts=parts(1, 1), densities=parts(*(f"{each:.6f}" for each in pure)))
    assert 0.03 < real / float(figures(question)["density"]) - 1 < 0.04
    assert "estimate" in shown(question.answer(BOOK))


def test_weights_of_a_wanted_total() -> None:
    found = figures(BlendQuestion(parts=parts(70, 30, names=("soy", "coconut")), total=Mass.of(500)))
    assert (found["part_1"], found["part_2"], found["total"]) == (350, 150, 500)


def test_shares_alone_are_percents() -> None:
    found = figures(BlendQuestion(parts=parts(3, 1)))
    assert (found["part_1"], found["part_2"]) == (75, 25)


def test_no_parts_is_missing() -> None:
    answer = BlendQuestion().answer(BOOK)
    assert isinstance(answer, Missing)
    assert [need.name for need in answer.needs] == ["parts"]


@pytest.mark.parametrize(
    ("question", "reason"),
    [
        (BlendQuestion(parts=parts(1, 0)), "out_of_range"),
        (BlendQuestion(parts=parts(1, -1)), "out_of_range"),
        (BlendQuestion(parts=parts(*[1] * 201)), "out_of_range"),
        (BlendQuestion(parts=parts(1, 1), total=Mass.of(0)), "out_of_range"),
        (BlendQuestion(parts=parts(1, 1), densities=parts(1)), "contradiction"),
        (BlendQuestion(parts=parts(1, 1), densities=parts(1, 0)), "out_of_range"),
        (BlendQuestion(parts=parts(1, 1), densities=parts(900, 920)), "out_of_range"),
    ],
)
def test_impossible_givens_get_a_sentence(question: BlendQuestion, reason: str) -> None:
    answer = ask.answer(question, BOOK)
    assert isinstance(answer, NotUnderstood)
    assert answer.reason == reason


shares = st.decimals(min_value="0.1", max_value="100", places=1)
densities = st.decimals(min_value="0.6", max_value="1.4", places=3)


@given(
    st.lists(st.tuples(shares, densities), min_size=1, max_size=12),
    st.decimals(min_value="1", max_value="5000", places=1),
)
def test_laws_of_a_blend(each: list[tuple[Decimal, Decimal]], total: Decimal) -> None:
    found = figures(
        BlendQuestion(
            parts=Parts(tuple(("", share) for share, _ in each)),
            densities=Parts(tuple(("", density) for _, density in each)),
            total=Mass(total),
        )
    )
    assert sum(found[f"part_{i}"] for i in range(1, len(each) + 1)) == total
    density = Fraction(found["density"])
    tiny = Fraction(1, 10**30)
    assert min(Fraction(d) for _, d in each) - tiny <= density <= max(Fraction(d) for _, d in each) + tiny
    # By mass fractions 1/ρ = Σ w/ρ; by volume fractions ρ = Σ φρ: the two forms agree.
    whole = sum(Fraction(share) for share, _ in each)
    rooms = [Fraction(share) / Fraction(d) for share, d in each]
    assert abs(1 / density - sum(rooms) / whole) < tiny
    volume_form = sum(room / sum(rooms) * Fraction(d) for room, (_, d) in zip(rooms, each, strict=True))
    assert abs(density - volume_form) < tiny
    assert abs(Fraction(found["volume"]) * density - Fraction(total)) < Fraction(1, 10**20)


def test_parts_by_recorded_names_have_their_recorded_densities() -> None:
    named = parts(50, 50, names=("House soy", "house soy"))
    answer = BlendQuestion(parts=named).answer(Workbench())
    assert float(results_by_name(answer)["density"].base) == pytest.approx(0.905, abs=1e-12)
    assert [given.origin for given in answer.given] == [Origin.RECORDED] * 2
    assert "estimate" in shown(answer)
    # One of them unknown, and there is no density.
    assert "density" not in results_by_name(
        BlendQuestion(parts=parts(50, 50, names=("House soy", "?"))).answer(Workbench())
    )


def test_every_part_of_a_long_blend_is_shown() -> None:
    answer = BlendQuestion(parts=parts(*range(1, 21))).answer(BOOK)
    assert answer.table is not None
    assert len(answer.table.rows) == 20
    assert "9.52 %" in shown(answer)  # 20 of 210
    assert "16 more" in answer.headline.show()
