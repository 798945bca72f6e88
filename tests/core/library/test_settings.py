"""Settings: a person's own over the server's, each checked, none of another server's."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from core.book import Preferences
from core.compounds import Basis
from core.errors import BadInput
from core.library import Library


def test_a_persons_own_over_the_servers(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    library.set_settings("guild:100", {"basis": "total", "first": "oz", "recorders": "11, 12", "packs": "2 kg 18 eur"})
    library.set_settings("user:7", {"first": "grams", "step": "0.5 g", "comma": "yes"})
    mine = library.settings(("guild:100",), "7")
    assert mine.preferences == Preferences("g", Decimal("0.5"), True, Basis.TOTAL)
    assert (mine.recorders, mine.packs) == (("11", "12"), "2 kg 18 eur")
    assert library.settings(("guild:100",), "8").preferences == Preferences("oz", None, False, Basis.TOTAL)
    assert library.settings(("guild:200",), "8").preferences == Preferences()
    assert library.settings(("user:7",), "7").preferences == Preferences("g", Decimal("0.5"), True, Basis.WAX)
    assert library.settings(("local",), "local").preferences == Preferences()


def test_set_back_to_the_default(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    library.set_settings("user:7", {"first": "oz"})
    library.set_settings("user:7", {"first": ""})
    assert library.own_settings("user:7") == {}


@pytest.mark.parametrize(
    ("scope", "key", "value"),
    [
        ("user:7", "first", "kg"),
        ("user:7", "step", "0"),
        ("user:7", "step", "NaN"),
        ("user:7", "step", "1e400"),
        ("user:7", "step", "-1 g"),
        ("user:7", "comma", "perhaps"),
        ("user:7", "basis", "water"),
        ("user:7", "currency", "gold"),
        ("user:7", "recorders", "11"),
        ("user:7", "colour", "red"),
        ("guild:100", "recorders", "@everyone"),
        ("guild:100", "recorders", ",".join("1" * 18 for _ in range(60))),
        ("guild:100", "packs", "x" * 1001),
        ("nobody", "first", "g"),
    ],
)
def test_refused_with_a_sentence_and_nothing_kept(tmp_path: Path, scope: str, key: str, value: str) -> None:
    library = Library(tmp_path / "l.db")
    with pytest.raises(BadInput) as refused:
        library.set_settings(scope, {"first": "g", key: value})
    assert refused.value.sentence.endswith(".")
    assert library.check() == []
    assert library.settings(("guild:100",), "7").preferences == Preferences()


def test_who_may_record(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    assert library.may_record("user:7", (), manages=False)
    assert library.may_record("local", (), manages=False)
    assert library.may_record("guild:100", (), manages=True)
    assert not library.may_record("guild:100", ("11",), manages=False)
    library.set_settings("guild:100", {"recorders": "11"})
    assert library.may_record("guild:100", ("5", "11"), manages=False)
    assert not library.may_record("guild:100", ("5",), manages=False)
    assert not library.may_record("guild:200", ("11",), manages=False)
