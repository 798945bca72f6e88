"""One broken platform limit: where in the payload, Discord's name for it, and a sentence."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

Json = dict[str, Any]
Path = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Breach:
    """`path` leads to the field inside the payload; `code` is the machine name in the API's error body."""

    path: Path
    code: str
    says: str

    def __str__(self) -> str:
        return f"{'.'.join(map(str, self.path)) or '(whole)'}: {self.says}"

    def under(self, *prefix: str | int) -> Breach:
        return Breach(prefix + self.path, self.code, self.says)


def under(breaches: Iterable[Breach], *prefix: str | int) -> Iterator[Breach]:
    """The same breaches, seen from one level further out."""
    return (breach.under(*prefix) for breach in breaches)


def wrong(path: Path, says: str, code: str = "BASE_TYPE_BAD_VALUE") -> Breach:
    return Breach(path, code, says)


def text(payload: Json, key: str, low: int, high: int, required: bool = False) -> Iterator[Breach]:
    """A string field whose length must lie from `low` to `high` characters when it is there."""
    value = payload.get(key)
    if value is None:
        if required:
            yield wrong((key,), "is required", "BASE_TYPE_REQUIRED")
        return
    if not isinstance(value, str):
        yield wrong((key,), f"must be text, not {type(value).__name__}", "BASE_TYPE_STRING")
    elif len(value) < low or (low and not value.strip()):
        yield wrong((key,), f"{len(value)} characters, at least {low} (blanks do not count)", "BASE_TYPE_MIN_LENGTH")
    elif len(value) > high:
        yield wrong((key,), f"{len(value)} characters, at most {high}", "BASE_TYPE_MAX_LENGTH")


def count(payload: Json, key: str, low: int, high: int, required: bool = False) -> Iterator[Breach]:
    """A list field that must hold from `low` to `high` things when it is there."""
    value = payload.get(key)
    if value is None:
        if required:
            yield wrong((key,), "is required", "BASE_TYPE_REQUIRED")
        return
    if not isinstance(value, list):
        yield wrong((key,), "must be a list", "BASE_TYPE_LIST")
    elif not low <= len(value) <= high:
        yield wrong((key,), f"{len(value)} of them, must be {low} to {high}", "BASE_TYPE_BAD_LENGTH")


def whole(payload: Json, key: str, low: int, high: int) -> Iterator[Breach]:
    """An integer field from `low` to `high` when it is there."""
    value = payload.get(key)
    if value is not None and (not isinstance(value, int) or not low <= value <= high):
        yield wrong((key,), f"{value!r}, must be {low} to {high}", "NUMBER_TYPE_RANGE")


def distinct(values: Iterable[Any], path: Path, what: str) -> Iterator[Breach]:
    """No value may be there twice."""
    seen: set[Any] = set()
    for value in values:
        if value in seen:
            yield wrong(path, f"{what} {value!r} is there twice", "DUPLICATE")
        seen.add(value)


def error_body(breaches: Iterable[Breach]) -> Json:
    """The API's answer to a bad form: code 50035 with the errors nested along their paths."""
    errors: Json = {}
    for breach in breaches:
        node = errors
        for step in breach.path:
            node = node.setdefault(str(step), {})
        node.setdefault("_errors", []).append({"code": breach.code, "message": breach.says})
    return {"code": 50035, "message": "Invalid Form Body", "errors": errors}
