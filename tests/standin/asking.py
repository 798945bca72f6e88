"""From "someone uses /load in that server" to the payload the platform sends for it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal, TypedDict

from tests.standin.component_limits import (
    CHECKBOX,
    CHECKBOX_GROUP,
    FILE_UPLOAD,
    LABELLED,
    RADIO,
    ROW,
    SELECTS,
    TEXT_INPUT,
)
from tests.standin.ledger import Ledger
from tests.standin.world import MEMBER, Channel, Json, Person, Role, Server, Upload, member, snowflake

COMMAND, COMPONENT, AUTOCOMPLETE, SUBMIT = 2, 3, 4, 5
SLASH, USER_ENTRY, MESSAGE_ENTRY = 1, 2, 3
GUILD_CONTEXT, BOT_DM_CONTEXT, PRIVATE_CONTEXT = 0, 1, 2
FILE_LIMIT = 10 * 1024 * 1024
SUBCOMMAND, GROUP, ATTACHMENT = 1, 2, 11

Expect = Literal["answer", "acknowledged", "silence", "anything"]


class Where(TypedDict, total=False):
    """Who asks, where, and what the test waits for. All can be left out.

    `guild` is the home server when left out, None for a direct conversation. `context` follows from it (2 is a private
    channel of others). `install` "user" is a person's own installation. `deliveries` sends the same interaction that
    often. `deadline` is how long (seconds) a callback is taken. `expect` says what ends the waiting: an answer, an
    acknowledgement, silence (AssertionError when the bot does answer), or anything within `wait` seconds.
    """

    user: Person
    guild: Server | None
    channel: Channel
    locale: str
    context: int
    install: Literal["guild", "user"]
    permissions: int
    app_permissions: int
    roles: tuple[Role, ...]
    deliveries: int
    deadline: float
    wait: float
    expect: Expect


class ImpossibleError(AssertionError):
    """The test asked for something no client could do: a command that is not there, a disabled button..."""


def interaction(ledger: Ledger, kind: int, data: Json, where: Where, home: Server, asker: Person) -> Json:
    """The INTERACTION_CREATE payload."""
    person = where.get("user", asker)
    server = where.get("guild", home)
    channel = where.get("channel") or _channel(ledger, server, person, where)
    ledger.people[person.id] = person
    ledger.see(channel, server)
    number = snowflake()
    by_user = where.get("install", "guild") == "user"
    owner = str(server.id) if server else "0"
    app_permissions = where.get("app_permissions", MEMBER)
    payload: Json = {
        "id": str(number),
        "application_id": str(ledger.bot.id),
        "type": kind,
        "token": f"token-{number}",
        "version": 1,
        "data": data,
        "channel_id": str(channel.id),
        "locale": where.get("locale", "en-US"),
        "context": where.get("context", GUILD_CONTEXT if server else BOT_DM_CONTEXT),
        "app_permissions": str(app_permissions),
        "authorizing_integration_owners": {"1": str(person.id)} if by_user else {"0": owner},
        "entitlements": [],
        "attachment_size_limit": FILE_LIMIT,
    }
    permissions = where.get("permissions", MEMBER)
    payload["channel"] = channel.json(server, permissions)
    if server is None:
        return {**payload, "user": person.json()}
    payload.update(guild_id=str(server.id), guild_locale=server.locale, guild=server.partial())
    return {**payload, "member": member(person, permissions, where.get("roles", ()))}


def asker_of(ledger: Ledger, asked: Json) -> Person:
    """The person behind an interaction's payload."""
    found = asked["member"]["user"] if "member" in asked else asked["user"]
    return ledger.people[int(found["id"])]


def _channel(ledger: Ledger, server: Server | None, person: Person, where: Where) -> Channel:
    if server is not None:
        return server.channels[0]
    if where.get("context") == PRIVATE_CONTEXT:
        return Channel("", type=3, people=(person, Person("friend")))
    return ledger.direct_channel(person)


def slash(ledger: Ledger, name: str, options: Mapping[str, Any], where: Where, home: Server, focused: str = "") -> Json:
    """Data of a slash command (or, with `focused`, of its completion). `name` may be "group sub"."""
    server = where.get("guild", home)
    root, *rest = name.split()
    registered = ledger.command(root, SLASH, server)
    if registered is None and ledger.commands:
        raise ImpossibleError(f"/{root} is not registered")
    resolved: Json = {}
    declared = registered or {"id": "1", "options": None}
    level, chain = declared, []
    for step in rest:
        level = next((o for o in level.get("options") or () if o["name"] == step), {"type": SUBCOMMAND})
        chain.append((step, level.get("type", SUBCOMMAND)))
    given = _options(ledger, options, level.get("options"), focused, resolved, f"/{name}")
    for step, kind in reversed(chain):
        given = [{"name": step, "type": kind, "options": given}]
    data: Json = {"id": declared["id"], "name": root, "type": SLASH, "options": given}
    if server and declared.get("guild_id"):
        data["guild_id"] = declared["guild_id"]
    return {**data, "resolved": resolved} if resolved else data


def _options(
    ledger: Ledger, options: Mapping[str, Any], declared: list[Json] | None, focused: str, resolved: Json, what: str
) -> list[Json]:
    by_name = {option["name"]: option for option in declared or ()}
    if declared is not None:
        strange = set(options) - set(by_name)
        if strange:
            raise ImpossibleError(f"{what} has no option {sorted(strange)}, only {sorted(by_name)}")
        lacking = {n for n, o in by_name.items() if o.get("required")} - set(options)
        if lacking and not focused:
            raise ImpossibleError(f"{what} needs {sorted(lacking)}")
    given = []
    for name, value in options.items():
        option = by_name.get(name, {})
        kind = option.get("type") or _type(value)
        if not focused:
            _client_checks(option, value, f"{what} {name}")
        entry = {"name": name, "type": kind, "value": _resolved(ledger, value, resolved)}
        given.append({**entry, "focused": True} if name == focused else entry)
    return given


def _client_checks(option: Json, value: Any, what: str) -> None:
    """What the platform's own client would not send."""
    choices = [choice["value"] for choice in option.get("choices") or ()]
    if choices and value not in choices:
        raise ImpossibleError(f"{what}: {value!r} is not among the choices {choices}")
    if isinstance(value, str):
        low, high = option.get("min_length") or 0, option.get("max_length") or 6000
        if not low <= len(value) <= high:
            raise ImpossibleError(f"{what}: {len(value)} characters, the option takes {low} to {high}")


def _type(value: Any) -> int:
    """The option type a Python value stands for."""
    if isinstance(value, bool):
        return 5
    types = {int: 4, float: 10, Person: 6, Channel: 7, Role: 8, Upload: ATTACHMENT}
    return types.get(type(value), 3)


def _resolved(ledger: Ledger, value: Any, resolved: Json) -> Any:
    """The value as sent: people, roles, channels and files go by id, described beside."""
    if isinstance(value, Person):
        ledger.people[value.id] = value
        resolved.setdefault("users", {})[str(value.id)] = value.json()
    elif isinstance(value, Role):
        resolved.setdefault("roles", {})[str(value.id)] = value.json()
    elif isinstance(value, Channel):
        resolved.setdefault("channels", {})[str(value.id)] = value.json()
    elif isinstance(value, Upload):
        ledger.uploads[f"{value.id}/{value.name}"] = value.data
        resolved.setdefault("attachments", {})[str(value.id)] = value.json(ledger.base)
    else:
        return value
    return str(value.id)


def selection(ledger: Ledger, control: Json, values: list[Any]) -> Json:
    """Data of a used select."""
    if control.get("disabled"):
        raise ImpossibleError(f"{control['custom_id']} is disabled")
    known = [option["value"] for option in control.get("options") or ()]
    chosen = [_by_label(control, value) for value in values]
    if known and set(chosen) - set(known):
        raise ImpossibleError(f"{sorted(set(chosen) - set(known))} not among the options {known}")
    low, high = control.get("min_values", 1), control.get("max_values", 1)
    if not low <= len(chosen) <= high:
        raise ImpossibleError(f"{len(chosen)} chosen, the select takes {low} to {high}")
    resolved: Json = {}
    sent = [_resolved(ledger, value, resolved) for value in chosen]
    data = {"custom_id": control["custom_id"], "component_type": control["type"], "values": sent}
    return {**data, "resolved": resolved} if resolved else data


def _by_label(control: Json, value: Any) -> Any:
    for option in control.get("options") or ():
        if value in (option["value"], option["label"]):
            return option["value"]
    return value


def submission(ledger: Ledger, form: Json, values: Mapping[str, Any]) -> Json:
    """Data of a submitted form. `values` by custom_id or label; what is left out stays as the form was filled."""
    left = dict(values)
    resolved: Json = {}
    sent = []
    for component in form["components"]:
        if component["type"] == LABELLED:
            field = component["component"]
            answer = _field(ledger, field, component["label"], left, resolved)
            sent.append({"type": LABELLED, "component": answer})
        elif component["type"] == ROW:
            field = component["components"][0]
            sent.append({"type": ROW, "components": [_field(ledger, field, field.get("label"), left, resolved)]})
        else:
            sent.append({"type": component["type"]})
    if left:
        raise ImpossibleError(f"the form has no field {sorted(left)}")
    data = {"custom_id": form["custom_id"], "components": sent}
    return {**data, "resolved": resolved} if resolved else data


def _field(ledger: Ledger, field: Json, label: str | None, left: dict[str, Any], resolved: Json) -> Json:
    key = field["custom_id"] if field["custom_id"] in left else label
    given = left.pop(key, None) if key is not None else None
    kind = field["type"]
    answer = {"type": kind, "custom_id": field["custom_id"], "id": 1}
    required = field.get("required", True)
    if kind == TEXT_INPUT:
        value = field.get("value") or "" if given is None else str(given)
        low, high = field.get("min_length") or 0, field.get("max_length") or 4000
        if (required and not value) or len(value) > high or (value and len(value) < low):
            raise ImpossibleError(f"{label}: {len(value)} characters, the field takes {max(low, required)} to {high}")
        return {**answer, "value": value}
    if kind == CHECKBOX:
        return {**answer, "value": bool(field.get("default") if given is None else given)}
    chosen = _chosen(field, given)
    if required and not chosen and kind in (*SELECTS, RADIO, CHECKBOX_GROUP, FILE_UPLOAD):
        raise ImpossibleError(f"{label} must be answered")
    if kind == RADIO:
        return {**answer, "value": chosen[0] if chosen else None}
    return {**answer, "values": [_resolved(ledger, value, resolved) for value in chosen]}


def _chosen(field: Json, given: Any) -> list[Any]:
    options = field.get("options") or ()
    if given is None:
        return [option["value"] for option in options if option.get("default")]
    wanted = given if isinstance(given, list | tuple) else [given]
    chosen = [_by_label(field, value) for value in wanted]
    known = {option["value"] for option in options}
    if known and set(chosen) - known:
        raise ImpossibleError(f"{sorted(set(chosen) - known)} not among the options {sorted(known)}")
    return chosen
