"""Every kind of message and form, made by the real bot against the stand-in, as pages to be looked at.

`python -m tests.bot.gallery FOLDER` writes one page a group; tests/bot/test_gallery.py holds what can be checked of
them without eyes.
"""

from __future__ import annotations

import asyncio
import copy
import sys
import tempfile
from collections.abc import Awaitable, Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from bot.desk import COMMANDS
from bot.forms import FORMS
from bot.own_commands import MENU_NAME
from tests.bot.bots import steelyard
from tests.standin.draw import draw_all
from tests.standin.reply import Reply
from tests.standin.server import StandIn
from tests.standin.world import MANAGER, MEMBER, SEND_MESSAGES, Channel, Json, Person, Role, Server


@dataclass(slots=True)
class Gallery:
    """What was drawn so far: a title and the payload as it was then."""

    standin: StandIn
    seen: list[tuple[str, Json]] = field(default_factory=list)

    def show(self, title: str, reply: Reply) -> Reply:
        """Keep the message (or the form) as it is now."""
        payload = reply.modal if reply.callback and reply.callback["type"] == 9 else reply.message.payload
        self.seen.append((title, copy.deepcopy(payload)))
        return reply

    async def slash(self, name: str, options: dict[str, Any] | None = None, **where: Any) -> Reply:
        """Use a command."""
        given = " ".join(f"{key}:{value}" for key, value in (options or {}).items())
        where.setdefault("permissions", MANAGER)
        return self.show(f"/{name} {given}", await self.standin.slash(name, options or {}, **where))

    async def say(self, text: str, **where: Any) -> Reply:
        """Ask in plain words."""
        return await self.slash("ask", {"question": text}, **where)

    async def press(self, label: str, reply: Reply, **where: Any) -> Reply:
        """Press a button."""
        where.setdefault("permissions", MANAGER)
        return self.show(f"pressed: {label}", await self.standin.press(label, reply, **where))

    async def submit(self, reply: Reply, values: dict[str, Any], **where: Any) -> Reply:
        """Fill a form."""
        where.setdefault("permissions", MANAGER)
        return self.show(f"filled in: {values}", await self.standin.submit(reply, values, **where))


Group = Callable[[Gallery], Awaitable[None]]


async def _load(g: Gallery) -> None:
    first = await g.slash("load", {"wax": "450 g", "load": "8%"})
    await g.press("As % of the total", first)
    await g.press("Ounces first", first)
    await g.press("Hide the steps", first)
    await g.press("Make it a batch", first)
    await g.slash("load", {"wax": "2 lb", "load": "6%", "additives": "dye 0.1%, UV 0.3%", "blend": "60/40"})
    await g.slash("load", {"wax": "450 g", "load": "14%", "limit": "10%"})
    await g.slash("load", {"wax": "450 g", "fragrance": "36 g"})


async def _words(g: Gallery) -> None:
    await g.say("2 lb of wax, 6 percent, how many oz of fragrance?")
    await g.say("and at 10 %?")
    await g.say("350 ml of wax at 6 %?")
    await g.say("how much wax for an 8 oz jar?")
    await g.say("450 g wax at 30 %, how much fragrance?")
    await g.say("what wick do I need for a 3 inch jar?")
    await g.say("qwer asdf")
    await g.say("hello")
    message = g.standin.written("I have 3 lb of soy and want 9% fragrance, how much?", user=Person("beginner"))
    g.show("message menu", await g.standin.message_menu(MENU_NAME, message, user=Person("teacher")))
    g.show(
        "message menu, no question", await g.standin.message_menu(MENU_NAME, g.standin.written("good morning everyone"))
    )
    g.show("mention", await g.standin.message("500 g wax at 7 %, how much fragrance?", mention=True))


async def _missing(g: Gallery) -> None:
    first = await g.slash("load", {"wax": "450 g"})
    opened = await g.press("Fill it in", first)
    await g.submit(opened, {"load": "8%"})
    first = await g.slash("volume", {"volume": "30 ml", "material": "rose oil"})
    await g.press("Fill it in", first)
    await g.slash("load")
    await g.slash("vessel", {"ounces": "8 oz", "density": "0.9 g/ml"})
    await g.slash("density", {"mass": "93 g"})
    await g.slash("drops", {"drops": 20})
    await g.slash("buy", {"need": "9 kg"})


async def _sums(g: Gallery) -> None:
    await g.slash("convert", {"amount": "40 oz", "to": "g"})
    await g.slash("convert", {"amount": "1 lb", "to": "oz"})
    await g.slash("convert", {"amount": "160 F", "to": "C"})
    await g.slash("convert", {"amount": "1 cup"})
    await g.slash("measures", {"measure": "cup"})
    await g.slash("volume", {"volume": "350 ml", "material": "paraffin"})
    await g.slash("room", {"mass": "500 g", "first": "0.90 g/ml", "second": "0.96 g/ml"})
    await g.slash("drops", {"drops": 20, "counted": 100, "weighed": "2.8 g", "wax": "200 g"})
    await g.slash("density", {"mass": "93.0 g", "volume": "100 ml", "step": "0.1 g", "measure": "beaker"})


async def _scales(g: Gallery) -> None:
    await g.slash("scale", {"step": "1 g", "weighing": "2 g, 20 g"})
    await g.slash("scale", {"buy": True, "wax": "400 g", "load": "6%"})
    await g.slash("tare", {"full": "2140 g", "empty": "640 g"})
    await g.slash("lot", {"label": "226 g", "weights": "230 g, 224 g, 228 g, 227 g, 231 g, 225 g"})
    await g.slash("label", {"wax": "200 g", "fragrance": "20 g"})
    await g.slash("parcel", {"candle": "18 oz", "count": 4, "packing": "14 oz", "length": "30 cm", "width": "25 cm",
                             "height": "20 cm", "divisor": 5000})  # fmt: skip


async def _batch(g: Gallery) -> None:
    first = await g.slash(
        "batch", {"fills": "12 x 200g, 6 x 90g", "load": "8%", "spare": "5%", "additives": "dye 0.1%"}
    )
    await g.press("Table as a file", first)
    await g.slash("vessel", {"empty": "150 g", "full": "402 g", "at": "20 °C", "density": "0.9 g/ml", "count": 12})
    await g.slash("stock", {"wax": "2.4 kg", "fragrance": "100 g", "load": "8%", "each": "200 g"})
    await g.slash("rescue", {"wax": "900 g", "fragrance": "90 g", "load": "8%"})
    await g.slash("blend", {"parts": "soy 70, coconut 30", "total": "500 g", "densities": "0.90, 0.92"})


async def _money(g: Gallery) -> None:
    await g.slash("buy", {"need": "9 kg", "packs": "2 kg 18 eur, 5 kg 39 eur"})
    cost = {"count": 24, "wax": "4.5 kg", "wax_price": "39 eur", "wax_pack": "5 kg", "fragrance": "360 g"}
    await g.slash("cost", cost | {"fragrance_price": "24 eur", "fragrance_pack": "500 g", "vessel": "1.20 eur"})


async def _pages(g: Gallery) -> None:
    waxes = ", ".join(f"{n} wax of a rather long name {n}" for n in range(1, 15))
    first = await g.slash("batch", {"fills": "100 x 200 g, 40 x 90 g, 12 x 340 g", "load": "8%", "waxes": waxes})
    while any(button["label"].startswith("Next page") for button in first.message.buttons):
        label = next(b["label"] for b in first.message.buttons if b["label"].startswith("Next page"))
        first = await g.press(label, first)


async def _shelf_empty(g: Gallery) -> None:
    await g.slash("shelf")
    for kind in ("materials", "vessels", "formulas"):
        await g.slash("shelf", {"kind": kind})
    await g.slash("shelf", {"start": "zz"})
    await g.slash("shelf", {"material": "rose oil"})
    await g.slash("shelf", {"vessel": "amber tin"})
    await g.slash("formula", {"name": "winter pine"})
    await g.slash("compare", {"name": "winter pine", "other": "summer pine"})
    await g.slash("delete", {"material": "rose oil"})
    await g.slash("undo", {"material": "rose oil"})


async def _shelf(g: Gallery) -> None:
    oil = {"material": "rose oil"}
    await g.slash("record_density", {**oil, "density": "0.93 g/ml", "stuff": "fragrance oil"})
    await g.slash("shelf", {"kind": "vessels"})
    await g.slash("record_density", {**oil, "density": "0.932 g/ml"})
    await g.slash("record_density", {**oil, "mass": "93.5 g", "volume": "100 ml", "step": "0.1 g", "measure": "beaker"})
    await g.slash("record_density", {**oil, "density": "0.39 g/ml"})
    await g.slash("shelf", oil)
    await g.slash("volume", {"volume": "30 ml", **oil})
    await g.slash("delete", {**oil, "number": 4})
    await g.slash("undo", oil)
    await g.slash(
        "record_material", {"material": "soy wax A", "stuff": "wax", "max_load": "10%", "flash_point": "93 C"}
    )
    await g.slash("shelf", {"material": "soy wax A"})
    await g.slash("record_vessel", {"vessel": "amber tin", "room": "250 ml", "fill": "200 g", "weight": "180 g"})
    await g.slash("shelf", {"vessel": "amber tin"})
    await g.slash("shelf")
    refused = await g.slash("record_density", {**oil, "density": "0.95 g/ml"}, permissions=MEMBER, user=Person("new"))
    await g.press("Try again", refused, user=Person("new"))


async def _formulas(g: Gallery) -> None:
    parts = {"waxes": "soy 70, coconut 30", "fragrances": "pine 60, orange 40", "notes": "wick 8, stir two minutes"}
    await g.slash("record_formula", {"name": "winter pine", "load": "8%", **parts})
    await g.slash("record_formula", {"name": "winter pine", "load": "9%", "reason": "scent was too faint"})
    await g.slash("log_test", {"formula": "winter pine", "observed": "full melt pool after 2 h, no soot",
                               "verdict": "works", "cure_days": 14})  # fmt: skip
    await g.slash("formula", {"name": "winter pine"})
    await g.slash("formula", {"name": "winter pine", "wax": "450 g"})
    await g.slash("formula", {"name": "winter pine", "fills": "12 x 200g"})
    await g.slash("compare", {"name": "winter pine", "version": 2, "other_version": 1})
    await g.slash("shelf", {"formula": "winter pine"})
    await g.slash("shelf", {"kind": "formulas"})
    await g.slash("batch", {"fills": "6 x 200 g", "formula": "winter pine"})


async def _teaching(g: Gallery) -> None:
    first = await g.slash("example", {"seed": 7})
    await g.press("Another one", first)
    task = await g.slash("practice", {"seed": 7})
    await g.press("Show how it is worked", task)
    opened = await g.press("Give my answer", task)
    await g.submit(opened, {"your_answer": "999 g"})
    await g.slash("practice", {"seed": 7, "your_answer": "36 ml"})
    await g.slash("lesson")


async def _lessons(g: Gallery) -> None:
    from core.lessons.topics import TOPICS

    for title in TOPICS.values():
        await g.slash("lesson", {"topic": title})


async def _panels(g: Gallery) -> None:
    mine = await g.slash("settings")
    number = await g.press("Scale and currency", mine)
    await g.submit(number, {"step": "a bit"})
    await g.submit(number, {"step": "0.01", "currency": "eur"})
    server = await g.press("The server's settings", mine)
    await g.press("Packs and vessels", server)
    overview = await g.slash("privacy")
    await g.press("All of it as a file", overview)
    await g.press("Delete it", overview)
    await g.slash("help")
    await g.slash("help", {"command": "load"})
    await g.slash("help", {"command": "lood"})


async def _forms(g: Gallery) -> None:
    for which in FORMS:
        if which in COMMANDS:
            await g.slash("form", {"which": which})
    wrong = await g.submit(await g.standin.slash("batch"), {"fills": "12 x 200 g", "load": "strong", "spare": "5%"})
    await g.press("Correct it", wrong)


async def _refusals(g: Gallery) -> None:
    await g.slash("load", {"wax": "450 pigs", "load": "8%"})
    first = await g.standin.slash("load", {"wax": "450 g", "load": "8%"})
    other = Person("other")
    copied = await g.press("Ounces first", first, user=other)
    posted = await g.press("Post to the channel", copied, user=other, permissions=MEMBER)
    await posted.until(lambda reply: len(reply.calls) >= 3)
    g.show("as posted", posted)
    first.message.buttons[0]["custom_id"] = "s0:b:1:x"
    await g.press("s0:b:1:x", first)
    await g.slash("load", {"wax": "450 g", "load": "8%"}, permissions=MEMBER & ~SEND_MESSAGES)


GROUPS: dict[str, Group] = {
    "load": _load,
    "words": _words,
    "missing": _missing,
    "sums": _sums,
    "scales": _scales,
    "batch": _batch,
    "money": _money,
    "pages": _pages,
    "shelf_empty": _shelf_empty,
    "shelf": _shelf,
    "formulas": _formulas,
    "teaching": _teaching,
    "lessons": _lessons,
    "panels": _panels,
    "forms": _forms,
    "refusals": _refusals,
}


async def drawn(group: str, database: Path) -> list[tuple[str, Json]]:
    """Everything of that group, as the bot sends it to a new server."""
    home = Server("home", channels=(Channel("general"), Channel("workshop")), roles=(Role("makers"),))
    async with StandIn(servers=(home,)) as standin, steelyard(standin, database):
        gallery = Gallery(standin)
        await GROUPS[group](gallery)
        standin.take_violations()
    return gallery.seen


async def _write(folder: Path, groups: list[str]) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    for group in groups:
        with tempfile.TemporaryDirectory() as scratch:
            seen = await drawn(group, Path(scratch) / "library.db")
        (folder / f"{group}.html").write_text(draw_all(seen), "utf-8")


if __name__ == "__main__":
    asyncio.run(_write(Path(sys.argv[1]), sys.argv[2:] or list(GROUPS)))
