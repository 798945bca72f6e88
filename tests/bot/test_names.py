"""Names of somebody's in every list of the workshop: shown as they are, marking up nothing and calling nobody."""

from __future__ import annotations

import pytest

from bot.client import SteelyardClient
from tests.bot.bad_inputs import harmless_markup
from tests.standin.server import StandIn
from tests.standin.world import MANAGER

NASTY = ("@everyone", "<@1>", "**b**", "`c`", "||s||", "[x](https://example.org)", "# h", "</load:1>")


def named(figures: str) -> str:
    """A list with every one of them as a name in quotes."""
    return ", ".join(f'"{name}" {figures}' for name in NASTY)


@pytest.mark.parametrize(
    ("command", "options"),
    [
        ("batch", {"fills": "12 x 200 g", "load": "8%", "additives": named("0.1%")}),
        ("batch", {"fills": "12 x 200 g", "load": "8%", "waxes": named("10"), "blend": named("5")}),
        *(("batch", {"fills": "12 x 200 g", "load": "8%", "material": name, "oil": name}) for name in NASTY),
        *(("batch", {"fills": f'12 x "{name}"', "load": "8%"}) for name in NASTY),
        ("blend", {"parts": named("10"), "total": "1 kg"}),
        ("buy", {"need": "9 kg", "packs": named("2 kg 18 eur")}),
        ("load", {"wax": named("100 g"), "load": "8%", "additives": named("0.1%")}),
        *(("record_vessel", {"vessel": name, "room": "200 ml"}) for name in NASTY),
        *(
            ("record_formula", {"name": f"a {name}", "load": "8%", "waxes": named("10"), "notes": name})
            for name in NASTY
        ),
        *(("export_formulas", {"formula": name}) for name in NASTY),
        *(("shelf", {"formula": name}) for name in NASTY),
    ],
)
async def test_a_name_is_only_a_name(
    standin: StandIn, client: SteelyardClient, command: str, options: dict[str, str]
) -> None:
    reply = await standin.slash(command, options, permissions=MANAGER)
    harmless_markup(reply.text)
    assert "went wrong" not in reply.text
