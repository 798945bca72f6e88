"""Each platform limit: exactly at it nothing is said, one past it there is one sentence.

Figures: Discord's official documentation (interactions/application-commands, resources/message, components/reference).
"""

from __future__ import annotations

import copy
from typing import Any

import pytest

from tests.standin.breach import error_body
from tests.standin.command_limits import command_text, good_name
from tests.standin.limits import ANSWERS, answer_type, breaches, embed_text, open_mentions, violations

Json = dict[str, Any]
TEXT_OPTION: Json = {"type": 3, "name": "wax", "description": "d", "required": True}
COMMAND: Json = {"type": 1, "name": "load", "description": "d", "options": [TEXT_OPTION]}


def command(**more: Any) -> Json:
    return {**copy.deepcopy(COMMAND), **more}


def option(**more: Any) -> Json:
    return command(options=[{**TEXT_OPTION, **more}])


def options(count: int) -> list[Json]:
    return [{**TEXT_OPTION, "name": f"o{n}"} for n in range(count)]


def choices(count: int, size: int = 1) -> list[Json]:
    return [{"name": f"{n}".rjust(size, "x"), "value": f"{n}"} for n in range(count)]


def message(**more: Any) -> Json:
    return {"content": "hello", **more}


def embeds(**more: Any) -> Json:
    return {"embeds": [{"title": "t", **more}]}


def row(*parts: Json) -> Json:
    return {"content": "c", "components": [{"type": 1, "components": list(parts)}]}


def button(number: int = 0, **more: Any) -> Json:
    return {"type": 2, "style": 1, "label": "go", "custom_id": f"b{number}", **more}


def select(count: int = 1, **more: Any) -> Json:
    made = [{"label": f"{n}", "value": f"{n}"} for n in range(count)]
    return {"type": 3, "custom_id": "s", "options": made, **more}


def second(*parts: Json, **more: Any) -> Json:
    return {"flags": 1 << 15, "components": list(parts), **more}


def text(size: int) -> Json:
    return {"type": 10, "content": "x" * size}


def modal(*fields: Json, **more: Any) -> Json:
    made = [{"type": 18, "label": "l", "component": f} for f in fields]
    return {"title": "t", "custom_id": "m", "components": made, **more}


def field(number: int = 0, **more: Any) -> Json:
    return {"type": 4, "style": 1, "custom_id": f"f{number}", **more}


def fields(count: int) -> list[Json]:
    return [{"name": "n", "value": "v"} for _ in range(count)]


EDGES: list[tuple[str, str, Any, Any]] = [
    ("command", "name length", command(name="x" * 32), command(name="x" * 33)),
    ("command", "description length", command(description="x" * 100), command(description="x" * 101)),
    ("command", "description there", command(description="x"), command(description="")),
    ("command", "option description", option(description="x" * 100), option(description="x" * 101)),
    ("command", "options", command(options=options(25)), command(options=options(26))),
    ("command", "choices", option(choices=choices(25)), option(choices=choices(26))),
    ("command", "choice name", option(choices=choices(1, 100)), option(choices=choices(1, 101))),
    ("command", "choice value", option(choices=[{"name": "a", "value": "x" * 100}]),
     option(choices=[{"name": "a", "value": "x" * 101}])),
    ("command", "choice type", option(choices=[{"name": "a", "value": "1"}]),
     option(choices=[{"name": "a", "value": 1}])),
    ("command", "string length", option(max_length=6000), option(max_length=6001)),
    ("command", "number range", option(type=4, max_value=2**53 - 1), option(type=4, max_value=2**53)),
    ("command", "choices or completion", option(autocomplete=True), option(autocomplete=True, choices=choices(1))),
    ("command", "required first", command(options=[TEXT_OPTION, {**TEXT_OPTION, "name": "b", "required": False}]),
     command(options=[{**TEXT_OPTION, "name": "b", "required": False}, TEXT_OPTION])),
    ("command", "option names", command(options=options(2)), command(options=[TEXT_OPTION, TEXT_OPTION])),
    ("command", "contexts", command(contexts=[0, 1, 2]), command(contexts=[3])),
    ("command", "translation", command(description_localizations={"de": "x" * 100}),
     command(description_localizations={"de": "x" * 101})),
    ("command", "locale", command(name_localizations={"pt-BR": "a"}), command(name_localizations={"pt": "a"})),
    ("command", "menu name", {"type": 3, "name": "Work It Out"}, {"type": 3, "name": "x" * 33}),
    ("command", "menu description", {"type": 3, "name": "A"}, {"type": 3, "name": "A", "description": "no"}),
    ("commands", "menu entries", [{"type": 3, "name": f"E{n}"} for n in range(15)],
     [{"type": 3, "name": f"E{n}"} for n in range(16)]),
    ("commands", "commands", [command(name=f"c{n}") for n in range(100)], [command(name=f"c{n}") for n in range(101)]),
    ("commands", "command names", [command(name="a"), command(name="b")], [command(name="a"), command(name="a")]),
    ("message", "content", message(content="x" * 2000), message(content="x" * 2001)),
    ("message", "empty", message(), {"content": ""}),
    ("message", "embeds", {"embeds": [{"title": "t"}] * 10}, {"embeds": [{"title": "t"}] * 11}),
    ("message", "embed title", embeds(title="x" * 256), embeds(title="x" * 257)),
    ("message", "embed description", embeds(description="x" * 4096), embeds(description="x" * 4097)),
    ("message", "embed fields", embeds(fields=fields(25)), embeds(fields=fields(26))),
    ("message", "field name", embeds(fields=[{"name": "x" * 256, "value": "v"}]),
     embeds(fields=[{"name": "x" * 257, "value": "v"}])),
    ("message", "field value", embeds(fields=[{"name": "n", "value": "x" * 1024}]),
     embeds(fields=[{"name": "n", "value": "x" * 1025}])),
    ("message", "field blank", embeds(fields=[{"name": "n", "value": "v"}]),
     embeds(fields=[{"name": "n", "value": " "}])),
    ("message", "footer", embeds(footer={"text": "x" * 2048}), embeds(footer={"text": "x" * 2049})),
    ("message", "author", embeds(author={"name": "x" * 256}), embeds(author={"name": "x" * 257})),
    ("message", "embeds together", {"embeds": [{"description": "x" * 3000}] * 2},
     {"embeds": [{"description": "x" * 3000}, {"description": "x" * 3001}]}),
    ("message", "attachments", message(attachments=[{"id": n} for n in range(10)]),
     message(attachments=[{"id": n} for n in range(11)])),
    ("message", "alt text", message(attachments=[{"id": 0, "description": "x" * 1024}]),
     message(attachments=[{"id": 0, "description": "x" * 1025}])),
    ("message", "nonce", message(nonce="x" * 25), message(nonce="x" * 26)),
    ("message", "rows", message(components=[{"type": 1, "components": [button(n)]} for n in range(5)]),
     message(components=[{"type": 1, "components": [button(n)]} for n in range(6)])),
    ("message", "buttons in a row", row(*map(button, range(5))), row(*map(button, range(6)))),
    ("message", "button label", row(button(label="x" * 80)), row(button(label="x" * 81))),
    ("message", "button without label", row(button(label=None, emoji={"name": "⚖"})), row(button(label=None))),
    ("message", "custom_id", row(button(custom_id="x" * 100)), row(button(custom_id="x" * 101))),
    ("message", "custom_id twice", row(button(1), button(2)), row(button(1), button(1))),
    ("message", "url", row({"type": 2, "style": 5, "label": "l", "url": "x" * 512}),
     row({"type": 2, "style": 5, "label": "l", "url": "x" * 513})),
    ("message", "select options", row(select(25)), row(select(26))),
    ("message", "select placeholder", row(select(placeholder="x" * 150)), row(select(placeholder="x" * 151))),
    ("message", "select option label", row(select(0, options=[{"label": "x" * 100, "value": "v"}])),
     row(select(0, options=[{"label": "x" * 101, "value": "v"}]))),
    ("message", "select option value", row(select(0, options=[{"label": "l", "value": "x" * 100}])),
     row(select(0, options=[{"label": "l", "value": "x" * 101}]))),
    ("message", "select option description",
     row(select(0, options=[{"label": "l", "value": "v", "description": "x" * 100}])),
     row(select(0, options=[{"label": "l", "value": "v", "description": "x" * 101}]))),
    ("message", "select alone in its row", row(select()), row(select(), button())),
    ("message", "parts of the second generation", second(*[text(1)] * 40), second(*[text(1)] * 41)),
    ("message", "text of the second generation", second(text(2000), text(2000)), second(text(2000), text(2001))),
    ("message", "no content beside it", second(text(1)), second(text(1), content="c")),
    ("message", "no embeds beside it", second(text(1)), second(text(1), embeds=[{"title": "t"}])),
    ("message", "text needs the flag", second(text(1)), {"components": [text(1)]}),
    ("message", "section texts", second({"type": 9, "components": [text(1)] * 3, "accessory": button()}),
     second({"type": 9, "components": [text(1)] * 4, "accessory": button()})),
    ("message", "section accessory", second({"type": 9, "components": [text(1)], "accessory": button()}),
     second({"type": 9, "components": [text(1)]})),
    ("message", "file that was sent", second({"type": 13, "file": {"url": "attachment://a.csv"}},
     attachments=[{"id": 0, "filename": "a.csv"}]), second({"type": 13, "file": {"url": "attachment://a.csv"}})),
    ("message", "gallery", second({"type": 12, "items": [{"media": {"url": "https://a"}}] * 10}),
     second({"type": 12, "items": [{"media": {"url": "https://a"}}] * 11})),
    ("message", "container in a container", second({"type": 17, "components": [text(1)]}),
     second({"type": 17, "components": [{"type": 17, "components": [text(1)]}]})),
    ("message", "mentions", message(allowed_mentions={"parse": ["users"]}),
     message(allowed_mentions={"parse": ["all"]})),
    ("message", "listed mentions", message(allowed_mentions={"parse": [], "users": ["1"] * 100}),
     message(allowed_mentions={"parse": [], "users": ["1"] * 101})),
    ("edit", "content", {"content": "x" * 2000}, {"content": "x" * 2001}),
    ("edit", "may be empty", {"content": ""}, {"content": "", "embeds": [{}]}),
    ("modal", "title", modal(field(), title="x" * 45), modal(field(), title="x" * 46)),
    ("modal", "custom_id", modal(field(), custom_id="x" * 100), modal(field(), custom_id="x" * 101)),
    ("modal", "fields", modal(*map(field, range(5))), modal(*map(field, range(6)))),
    ("modal", "a field at least", modal(field()), modal()),
    ("modal", "label", {**modal(), "components": [{"type": 18, "label": "x" * 45, "component": field()}]},
     {**modal(), "components": [{"type": 18, "label": "x" * 46, "component": field()}]}),
    ("modal", "label's description",
     {**modal(), "components": [{"type": 18, "label": "l", "description": "x" * 100, "component": field()}]},
     {**modal(), "components": [{"type": 18, "label": "l", "description": "x" * 101, "component": field()}]}),
    ("modal", "placeholder", modal(field(placeholder="x" * 100)), modal(field(placeholder="x" * 101))),
    ("modal", "value", modal(field(value="x" * 4000)), modal(field(value="x" * 4001))),
    ("modal", "value within the field", modal(field(value="xx", max_length=2)),
     modal(field(value="xxx", max_length=2))),
    ("modal", "no buttons", modal(field()), modal(button())),
    ("modal", "radio", modal(select(10, type=21)), modal(select(11, type=21))),
    ("modal", "radio at least", modal(select(2, type=21)), modal(select(1, type=21))),
    ("autocomplete", "completions", {"choices": choices(25)}, {"choices": choices(26)}),
    ("autocomplete", "completion value", {"choices": [{"name": "a", "value": "x" * 100}]},
     {"choices": [{"name": "a", "value": "x" * 101}]}),
    ("autocomplete", "completion name", {"choices": choices(1, 100)}, {"choices": choices(1, 101)}),
    ("callback", "message", {"type": 4, "data": message()}, {"type": 4, "data": message(content="x" * 2001)}),
    ("callback", "deferral", {"type": 5, "data": {"flags": 64}}, {"type": 5, "data": {"flags": 1 << 15}}),
    ("callback", "type", {"type": 8, "data": {"choices": []}}, {"type": 3, "data": {}}),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "name", "good", "bad"), EDGES, ids=[f"{kind}: {name}" for kind, name, _, _ in EDGES])
def test_edge(kind: str, name: str, good: Any, bad: Any) -> None:
    assert violations(kind, good) == []
    assert len(violations(kind, bad)) == 1, violations(kind, bad)


@pytest.mark.parametrize("name", ["load", "net-weight", "n_2", "größe", "राशि", "น้ำหนัก", "l'once"])
def test_names_the_platform_takes(name: str) -> None:
    assert good_name(name)


@pytest.mark.parametrize("name", ["", "Load", "net weight", "load!", "x" * 33, "👍"])
def test_names_it_refuses(name: str) -> None:
    assert not good_name(name)


def test_nesting_ends_at_the_subcommand_of_a_group() -> None:
    sub = {"type": 1, "name": "find", "description": "d", "options": [TEXT_OPTION]}
    group = {"type": 2, "name": "shelf", "description": "d", "options": [sub]}
    assert violations("command", command(options=[sub])) == []
    assert violations("command", command(options=[group])) == []
    assert violations("command", command(options=[{**group, "options": [group]}])) != []
    assert violations("command", command(options=[sub, TEXT_OPTION])) != []


def test_command_text_counts_names_descriptions_values_and_the_longest_translation() -> None:
    made = option(choices=[{"name": "abc", "value": "xy"}])
    assert command_text(made) == len("load" + "d" + "wax" + "d" + "abc" + "xy")
    longer = {**made, "description_localizations": {"de": "12345", "fr": "123"}}
    assert command_text(longer) == command_text(made) + 4


def test_a_command_may_hold_8000_characters() -> None:
    # 4 for "load", 1 for its description, and 20 options of 3 + 1 + 4 choices of (1 + 97)
    large = [{"type": 3, "name": f"o{n:02}", "description": "d"} for n in range(20)]
    for each in large:
        each["choices"] = [{"name": f"{n}", "value": f"{n}".ljust(97, "x")} for n in range(4)]
    made = command(options=large)
    assert command_text(made) == 5 + 20 * (4 + 4 * 98) == 7925
    made["description"] = "x" * 76
    assert violations("command", made) == []
    made["description"] = "x" * 77
    assert violations("command", made) == ["(whole): 8001 characters in all, at most 8000"]


def test_embed_text_counts_what_the_platform_counts() -> None:
    embed = {"title": "12", "description": "345", "footer": {"text": "6"}, "author": {"name": "78"}, "url": "not this"}
    assert embed_text({**embed, "fields": [{"name": "9", "value": "10"}]}) == 11


def test_open_mentions() -> None:
    assert open_mentions({"allowed_mentions": {"parse": []}}) == []
    assert len(open_mentions({})) == 1
    assert len(open_mentions({"allowed_mentions": {"parse": ["users"]}})) == 1
    assert len(open_mentions({"allowed_mentions": {"parse": [], "replied_user": True}})) == 1


def test_each_interaction_has_its_own_answers() -> None:
    refused = {(asked, given) for asked in ANSWERS for given in range(1, 11) if answer_type(asked, given)}
    assert {(2, 8), (2, 7), (4, 4), (5, 9), (3, 8)} <= refused
    assert not {(2, 4), (2, 5), (2, 9), (3, 6), (3, 7), (4, 8), (5, 7)} & refused


def test_error_body_has_the_shape_of_the_api() -> None:
    found = breaches("callback", {"type": 4, "data": {"content": "x" * 2001}})
    error = {"code": "BASE_TYPE_MAX_LENGTH", "message": "2001 characters, at most 2000"}
    assert error_body(found) == {
        "code": 50035,
        "message": "Invalid Form Body",
        "errors": {"data": {"content": {"_errors": [error]}}},
    }
