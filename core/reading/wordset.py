"""A set of words written as one readable line."""

from __future__ import annotations


def wordset(*lines: str) -> frozenset[str]:
    """The words of all the lines."""
    return frozenset(word for line in lines for word in line.split())
