"""An answer as files: the CSV reads back, and no cell of somebody's becomes a formula."""

from __future__ import annotations

import csv
import io

import pytest

from bot.files import csv_of, files_of
from core.answer import Table, Worked, line
from core.book import Preferences
from core.units import Mass


def answered(*names: str) -> Worked:
    rows = tuple((name, Mass.of("12.5", "g")) for name in names)
    return Worked(intent="x", headline=line("A table."), table=Table("Weigh", ("what", "weigh"), rows))


@pytest.mark.parametrize(("comma", "delimiter", "shown"), [(False, ",", "12.5 g"), (True, ";", "12,5 g")])
def test_the_table_reads_back(comma: bool, delimiter: str, shown: str) -> None:
    name = 'soy "A", with; both\u00b2'
    text = csv_of(answered(name, "palm"), Preferences(comma=comma))
    rows = list(csv.reader(io.StringIO(text), delimiter=delimiter))
    assert rows[0] == ["what", "weigh"]
    assert [row[0] for row in rows[1:]] == [name, "palm"]
    assert rows[1][1].startswith(shown)


@pytest.mark.parametrize("name", ["=1+1", "+cmd", "@sum", "-2+3cmd|x", "\tx"])
def test_no_cell_is_a_formula(name: str) -> None:
    rows = list(csv.reader(io.StringIO(csv_of(answered(name), Preferences()))))
    assert not rows[1][0].startswith(("=", "+", "-", "@", "\t"))


def test_every_part_with_a_table_has_its_file() -> None:
    both = Worked(intent="x", headline=line("Two."), table=answered("a").table, then=(answered("b"),))
    found = files_of(both, Preferences())
    assert [file.filename for file in found] == ["table.csv", "table2.csv", "answer.txt"]
    assert found[0].fp.read().startswith(b"\xef\xbb\xbf")
    assert all(file.description for file in found)
