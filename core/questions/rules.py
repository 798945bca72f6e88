"""Whose label rules are meant, and the reminder that goes with every answer about them."""

from __future__ import annotations

from enum import StrEnum

from core.answer import Caution, line


class Rules(StrEnum):
    """Whose rules. The value is what a person sees."""

    US = "US"
    EU_UK = "EU and UK"


LOCAL_RULES = Caution(
    "local_rules",
    line("Check your local rules: they change, and states and countries add their own. This is no legal advice."),
)


def asked(rules: Rules | None) -> tuple[Rules, ...]:
    """The rules to work by: those asked for, else all that are held."""
    return (rules,) if rules is not None else tuple(Rules)
