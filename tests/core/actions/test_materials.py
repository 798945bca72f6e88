"""Recording densities and sheets: what is kept, how several measurements go together, how slips come back."""

from __future__ import annotations

from decimal import Decimal
from math import sqrt
from pathlib import Path

import pytest

from core.actions.forget import ForgetRecord, UndoDelete
from core.actions.materials import RecordDensity, RecordMaterial
from core.answer import Missing, Worked, results_by_name
from core.compounds import Material, Measure, Stuff, Words
from core.errors import NotFound, OutOfRange, SteelyardError
from core.library import Library
from core.library.lately import NothingToUndo
from core.questions.volume import VolumeQuestion
from core.units import Density, Mass, Percent, Temperature, Volume
from tests.core.library.shelves import GROUP, actor, on_day

SOY = Material("soy wax A")


@pytest.fixture
def library(tmp_path: Path) -> Library:
    return Library(tmp_path / "l.db")


def record(library: Library, density: str, day: int = 1, *, off: str = "", at: str = "", user: str = "7") -> Worked:
    action = RecordDensity(
        material=SOY,
        density=Density.of(density),
        give_or_take=Density.of(off) if off else None,
        at=Temperature.of(at) if at else None,
    )
    answer = action.act(library, on_day(day, user))
    assert isinstance(answer, Worked)
    return answer


def test_worked_out_from_weight_and_volume_with_its_uncertainty(library: Library) -> None:
    """93.0 g in 100 ml; a class B 100 ml cylinder is within 1.0 ml (ASTM E1272, as in the table of measures):
    u(V) = 1.0/√3, u(m) = 0.1/√6 by the GUM."""
    action = RecordDensity(
        material=SOY,
        mass=Mass.of(93),
        volume=Volume.of(100),
        step=Mass.of("0.1"),
        measure=Measure.CYLINDER_B,
        capacity=Volume.of(100),
        stuff=Stuff.WAX,
        how=Words("poured to the mark"),
    )
    answer = action.act(library, actor())
    u = 0.93 * sqrt((1.0 / sqrt(3) / 100) ** 2 + (0.1 / sqrt(6) / 93) ** 2)
    assert float(results_by_name(answer)["uncertainty"].base) == pytest.approx(u, rel=1e-9)
    kept = library.book((GROUP,), "7").material("SOY WAX A")
    assert kept is not None
    assert (kept.name, kept.kind, kept.density) == ("soy wax A", "wax", Density.of("0.93"))
    assert kept.how == "measured by Ada, 2026-03-01, graduated cylinder, class B, poured to the mark"


def test_found_again_by_a_later_question(library: Library) -> None:
    record(library, "0.9")
    asked = VolumeQuestion(material=Material("Soy Wax a"), volume=Volume.of(200), stuff=Stuff.WAX)
    answer = asked.answer(library.book((GROUP,), "8"))
    assert results_by_name(answer)["wax"].base == 180


def test_two_measurements_are_weighed_by_their_uncertainty(library: Library) -> None:
    """By hand: u = 0.001 and 0.002, weights 4 : 1; (4 × 0.900 + 0.902)/5 = 0.9004; scatter
    √((4 × 0.0004² + 0.0016²)/5) = 0.0008, tools (4 × 0.001 + 0.002)/5 = 0.0012; together √(0.0008² + 0.0012²)."""
    record(library, "0.900", 1, off="0.002")
    answer = record(library, "0.902", 2, off="0.004", user="8")
    kept = library.book((GROUP,), "7").material(SOY)
    assert kept is not None
    assert kept.density == Density(Decimal("0.9004"))
    assert float(kept.spread or 0) == pytest.approx(sqrt(0.0008**2 + 0.0012**2))
    assert kept.how.startswith("weighted mean of 2 measurements by Ada and Bo, the newest 2026-03-02; two are too few")
    assert "0.9004 g/ml" in answer.body[1].show()


def test_measurements_that_disagree_say_so(library: Library) -> None:
    record(library, "0.900", 1, off="0.002")
    record(library, "0.920", 2, off="0.002")
    kept = library.book((GROUP,), "7").material(SOY)
    assert kept is not None
    assert "differ more than each says" in kept.how
    assert float(kept.spread or 0) == pytest.approx(
        sqrt(0.01**2 + 0.001**2)
    )  # by hand: half their distance, and the tools


def test_one_far_from_the_others_is_shown_and_can_be_taken_out(library: Library) -> None:
    for day, density in enumerate(("0.900", "0.902", "0.901", "0.700", "0.899"), 1):
        record(library, density, day)
    book = library.book((GROUP,), "7")
    assert [one.stands_out for one in book.measurements(SOY)] == [False, False, False, True, False]
    kept = book.material(SOY)
    assert kept is not None
    assert "number 4 lies far" in kept.how
    ForgetRecord(material=SOY, number=4).act(library, on_day(6))
    kept = book.material(SOY)
    assert kept is not None
    assert kept.density == Density(Decimal("0.9005"))
    assert [one.number for one in book.measurements(SOY)] == [1, 2, 3, 5]
    assert UndoDelete(material=SOY).act(library, on_day(7)).headline.show() == "Measurement 4 of soy wax A is back."
    assert len(book.measurements(SOY)) == 5


def test_hot_and_cold_are_not_mixed(library: Library) -> None:
    record(library, "0.90", 1)
    record(library, "0.90", 2, at="22")
    record(library, "0.85", 3, at="75")
    book = library.book((GROUP,), "7")
    kept = book.material(SOY)
    assert kept is not None
    assert (kept.density, kept.at) == (Density.of("0.85"), Temperature.of(75))
    assert "2 more at another temperature" in kept.how
    assert [one.counted for one in book.measurements(SOY)] == [False, False, True]


def test_the_last_change_is_taken_back_and_brought_again(library: Library) -> None:
    record(library, "0.90", 1)
    RecordMaterial(material=SOY, max_load=Percent.of(10)).act(library, on_day(2))
    RecordMaterial(material=SOY, max_load=Percent.of(100), notes=Words("a slip")).act(library, on_day(3))
    book = library.book((GROUP,), "7")

    def sheet() -> tuple[Percent | None, str]:
        kept = book.material(SOY)
        assert kept is not None
        return kept.max_load, kept.notes

    assert sheet() == (Percent.of(100), "a slip")
    UndoDelete(material=SOY).act(library, on_day(4))
    assert sheet() == (Percent.of(10), "")
    UndoDelete(material=SOY).act(library, on_day(5))
    assert sheet() == (Percent.of(100), "a slip")
    assert [change.version for change in book.changes("material", SOY)] == [5, 4, 3, 2, 1]
    assert book.changes("material", SOY)[0].reason == "as in version 3"


def test_deleted_and_back_within_thirty_days_only(library: Library) -> None:
    record(library, "0.90", 1)
    ForgetRecord(material=SOY).act(library, on_day(1))
    book = library.book((GROUP,), "7")
    assert book.material(SOY) is None
    assert list(book.names("material", "soy")) == []
    with pytest.raises(NothingToUndo, match="for 30 days"):
        UndoDelete(material=SOY).act(library, actor(now="2026-04-02T00:00:00+00:00"))
    UndoDelete(material=SOY).act(library, on_day(30))
    assert book.material(SOY) is not None


def test_a_name_taken_since_can_not_be_brought_back_over_it(library: Library) -> None:
    record(library, "0.90", 1)
    ForgetRecord(material=SOY).act(library, on_day(2))
    record(library, "0.95", 3)
    answer = UndoDelete(material=SOY).act(library, on_day(4))
    assert "taken back" in answer.headline.show()
    kept = library.book((GROUP,), "7").material(SOY)
    assert kept is not None
    assert kept.density is None


def test_near_names_are_offered(library: Library) -> None:
    record(library, "0.9")
    with pytest.raises(NotFound, match="Did you mean soy wax A"):
        ForgetRecord(material=Material("soy wx A")).act(library, on_day(2))


@pytest.mark.parametrize(
    "action",
    [
        RecordDensity(material=SOY, density=Density.of(0)),
        RecordDensity(material=SOY, density=Density.of(30)),
        RecordDensity(material=SOY, density=Density.of("0.9"), give_or_take=Density.of(0)),
        RecordDensity(material=SOY, density=Density.of("0.9"), give_or_take=Density.of(1)),
        RecordDensity(material=SOY, density=Density.of("0.9"), at=Temperature.of(5000)),
        RecordDensity(material=SOY, mass=Mass.of(93), volume=Volume.of(0)),
        RecordDensity(material=SOY, mass=Mass.of(9300), volume=Volume.of(10)),
        RecordDensity(material=SOY, density=Density.of("0.9"), how=Words("x" * 501)),
        RecordMaterial(material=SOY, max_load=Percent.of(150)),
        RecordMaterial(material=SOY, flash_point=Temperature.of(-200)),
    ],
)
def test_figures_that_can_not_be(library: Library, action: RecordDensity | RecordMaterial) -> None:
    with pytest.raises(OutOfRange) as refused:
        action.act(library, actor())
    assert refused.value.sentence.endswith(".")
    assert library.book((GROUP,), "7").material(SOY) is None


def test_an_odd_density_is_kept_with_a_word(library: Library) -> None:
    answer = record(library, "2.1")
    assert [caution.key for caution in answer.cautions] == ["odd_density"]


def test_half_of_it_asks_for_the_other(library: Library) -> None:
    answer = RecordDensity(material=SOY, mass=Mass.of(93)).act(library, actor())
    assert isinstance(answer, Missing)
    assert [need.name for need in answer.needs] == ["volume_of_sample"]


def test_too_many_measurements(library: Library) -> None:
    for _ in range(200):
        record(library, "0.9")
    with pytest.raises(SteelyardError, match="200 measurements"):
        record(library, "0.9")
