"""Help written from the questions themselves: commands, their slots, an example of each."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from typing import Any

from rapidfuzz import process

from core.question import description, slots_of

INTRO = """Ask in plain words, such as “2 lb of wax, 6 percent, how many oz of fragrance?”
Then “and at 10 %?” or “in grams” changes the last question. Or use a command, each value after its name:"""


# What a command is about, in the order in which somebody new meets it.
GROUPS = {
    "Weights, volumes and loads": "load volume density room drops convert measures scale tare",
    "Candles and batches": "vessel batch stock rescue blend",
    "Buying and selling": "buy cost label parcel lot",
    "The shelf": "shelf formula compare record_density record_material record_vessel record_formula log_test delete "
    "undo export_formulas import_formulas",
    "Learning": "lesson example practice",
    "Yours": "settings my_data",
}


def grouped(commands: Mapping[str, type[Any]]) -> list[tuple[str, list[str]]]:
    """The commands' names under their headings."""
    found = [(heading, [name for name in names.split() if name in commands]) for heading, names in GROUPS.items()]
    return [(heading, names) for heading, names in found if names]


def overview(commands: Mapping[str, type[Any]]) -> str:
    """Every command with its description and an example."""
    width = max(len(name) for name in commands) + 1
    lines: list[str] = []
    for heading, names in grouped(commands):
        lines += [f"{heading}:", *(f"  /{name:<{width}}{description(commands[name])}" for name in names)]
    return "\n".join([INTRO, *lines, "Type “help load” for the values of a command, “quit” to leave."])


def command_help(name: str, commands: Mapping[str, type[Any]]) -> str:
    """One command's slots, what each means and an example."""
    kind = commands.get(name.casefold())
    if kind is None:
        near = [match[0] for match in process.extract(name, list(commands), limit=2, score_cutoff=60)]
        hint = f" Did you mean {' or '.join(near)}?" if near else " Type “help” for all of them."
        return f"There is no command “{name[:30]}”.{hint}"
    lines = [f"/{name}: {description(kind)}"]
    for slot in slots_of(kind):
        lines.append(
            f"  {slot.name}: {slot.says}{choices(slot.type)}{f' (e.g. {slot.example})' if slot.example else ''}"
        )
    if example(kind):
        lines.append(f"Example: {example(kind)}")
    return "\n".join(lines)


def choices(kind: Any) -> str:
    """The words an enumerated slot takes."""
    if isinstance(kind, type) and issubclass(kind, StrEnum):
        return f": {', '.join(member.value for member in kind)}"
    return ""


def example(kind: type[Any]) -> str:
    """The command as typed, with the examples of its first slots."""
    filled = [f"{slot.name}:{slot.example}" for slot in slots_of(kind) if slot.example][:2]
    return " ".join([f"/{kind.command}", *filled]) if filled else ""
