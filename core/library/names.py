"""Names: made harmless before they are kept, found again by their beginning, and by what comes near.

A hundred thousand names must answer while somebody types: beginnings are a range of an index, near misses are looked
for among at most a few hundred names that share their rarest three-letter pieces.
"""

from __future__ import annotations

import sqlite3
import unicodedata
from collections import Counter
from collections.abc import Iterator, Sequence

from rapidfuzz import fuzz, process

from core.errors import BadInput, OutOfRange, clipped
from core.library.space import Space

KINDS = ("material", "vessel", "formula")
LONGEST_NAME = 80
LONGEST_PROSE = 500
# Signs that a chat reads as layout, mentions or links, or the slash form as the start of an option.
_NO_NAME_SIGNS = frozenset('`*~|<>@\\[]{}:;="“”„')
_LAST = chr(0x10FFFF)
NEAR_ENOUGH = 65  # of 100, rapidfuzz's weighted ratio
RARE = (60, 300)  # a piece that no more names have says something; the second is tried where the first says little
SHARED = 4  # rare pieces in common that say enough
MOST_PIECES = 40  # of what is looked for
COMPARED = 120  # names compared letter by letter


def cleaned(text: str) -> str:
    """The name as it is kept: one line, no control or formatting signs, no markup. BadInput where nothing is left
    or somebody would be mentioned; OutOfRange where it is too long."""
    name = unicodedata.normalize("NFC", text)
    if "<@" in name or "<#" in name or "@everyone" in name.casefold() or "@here" in name.casefold():
        raise BadInput(clipped(text), "A name can't mention anybody or anything. Give it in plain words.")
    # Cc, Cf, Co, Cs, Cn: invisible, or able to turn the direction of what follows
    plain = "".join(" " if unicodedata.category(c)[0] in "CZ" or c in _NO_NAME_SIGNS else c for c in name)
    plain = " ".join(plain.split()).strip("_#-+/ ")
    if len(plain) > LONGEST_NAME:
        raise OutOfRange(clipped(text), f"That name is too long. Keep it to {LONGEST_NAME} characters.")
    if not any(c.isalnum() for c in plain):
        raise BadInput(clipped(text), "That name has no letter or figure in it. Give it in plain words.")
    return plain


def prose(text: str, most: int = LONGEST_PROSE) -> str:
    """Notes and reasons as they are kept: one line, no control or formatting signs. OutOfRange where too long."""
    plain = "".join(" " if unicodedata.category(c)[0] in "CZ" else c for c in unicodedata.normalize("NFC", text))
    plain = " ".join(plain.split())
    if len(plain) > most:
        raise OutOfRange(clipped(text), f"That is too long to keep: at most {most} characters.")
    return plain


def folded(text: str) -> str:
    """What names are compared by: case, width and blanks don't count."""
    return " ".join(unicodedata.normalize("NFKC", text[: 4 * LONGEST_NAME]).casefold().split())


def pieces(folded_name: str) -> set[str]:
    """The three-letter pieces of a folded name, its ends marked."""
    marked = f" {folded_name} "
    return {marked[i : i + 3] for i in range(len(marked) - 2)}


def shelves(db: sqlite3.Connection, spaces: Sequence[Space], kind: str) -> list[int]:
    """The shelves of that kind, in the order of the spaces."""
    found = [
        db.execute("SELECT id FROM shelf WHERE space = ? AND kind = ?", (space, kind)).fetchone() for space in spaces
    ]
    return [row[0] for row in found if row is not None]


def find(db: sqlite3.Connection, spaces: Sequence[Space], user: str, kind: str, name: str) -> tuple[int, str] | None:
    """Id and name of the record of exactly that name that `user` may see: the first space first, their own before
    the group's."""
    wanted = folded(name)
    for shelf in shelves(db, spaces, kind):
        row = db.execute(
            "SELECT id, name FROM record WHERE shelf = ? AND reader IN ('', ?) AND folded = ? AND deleted_at IS NULL "
            "ORDER BY reader DESC LIMIT 1",
            (shelf, user, wanted),
        ).fetchone()
        if row is not None:
            return int(row[0]), str(row[1])
    return None


def suggest(db: sqlite3.Connection, spaces: Sequence[Space], user: str, kind: str, start: str, limit: int) -> list[str]:
    """At most `limit` names that begin with `start`, in order; then those that come near."""
    begin = folded(start)
    out: dict[str, str] = {}
    found = shelves(db, spaces, kind)
    for shelf in found:
        for key, name in _beginning(db, shelf, user, begin, limit):
            out.setdefault(key, name)
    names = [out[key] for key in sorted(out)][:limit]
    if len(begin) >= 3 and len(names) < limit:
        names += [name for key, name in _near(db, found, user, begin, limit) if key not in out][: limit - len(names)]
    return names


def _beginning(db: sqlite3.Connection, shelf: int, user: str, begin: str, limit: int) -> Iterator[tuple[str, str]]:
    # One query for each reader: each is a plain range of the index, with no sorting.
    for reader in dict.fromkeys(("", user)):
        yield from db.execute(
            "SELECT folded, name FROM record WHERE shelf = ? AND reader = ? AND folded >= ? AND folded < ? "
            "AND deleted_at IS NULL ORDER BY folded LIMIT ?",
            (shelf, reader, begin, begin + _LAST, limit),
        )


def _near(db: sqlite3.Connection, found: list[int], user: str, begin: str, limit: int) -> list[tuple[str, str]]:
    """Names like `begin`, the likest first."""
    candidates: dict[str, str] = {}
    for shelf in found:
        candidates.update(_sharing_pieces(db, shelf, user, begin))
    ranked = process.extract(begin, list(candidates), scorer=fuzz.WRatio, limit=limit, score_cutoff=NEAR_ENOUGH)
    return [(match[0], candidates[match[0]]) for match in ranked]


def _sharing_pieces(db: sqlite3.Connection, shelf: int, user: str, begin: str) -> list[tuple[str, str]]:
    """Names that share the most rare pieces with `begin`: a bounded number of them, however many names there are."""
    shared: Counter[int] = Counter()
    left = sorted(pieces(begin))[:MOST_PIECES]
    for rare in RARE:
        common: list[list[int]] = []
        still: list[str] = []
        for piece in left:
            rows = db.execute("SELECT record FROM gram WHERE shelf = ? AND gram = ? LIMIT ?", (shelf, piece, rare + 1))
            holding = [row[0] for row in rows]
            if len(holding) <= rare:
                shared.update(holding)
            else:
                still.append(piece)
                common.append(holding)
        left = still
        if shared and shared.most_common(1)[0][1] >= SHARED:
            break
    if not shared:  # only pieces that very many names have: their first ones are as good as any
        shared.update(record for holding in common for record in holding)
    wanted = [record for record, _ in shared.most_common(COMPARED)]
    marks = ", ".join("?" * len(wanted))
    return db.execute(
        f"SELECT folded, name FROM record WHERE id IN ({marks}) AND reader IN ('', ?) AND deleted_at IS NULL",
        (*wanted, user),
    ).fetchall()
