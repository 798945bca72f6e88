"""The stand-in: one object a test talks to, in front of the HTTP and gateway sides."""

from __future__ import annotations

import asyncio
from collections.abc import Mapping
from types import TracebackType
from typing import Any, Self, Unpack

from aiohttp import web

from tests.standin import asking
from tests.standin.asking import Expect, ImpossibleError, Where
from tests.standin.component_limits import BUTTON, SELECTS
from tests.standin.faults import Fault
from tests.standin.gateway import DIRECT_MESSAGES, GUILD_MESSAGES, GUILDS, MESSAGE_CONTENT, Gateway
from tests.standin.ledger import Ledger
from tests.standin.message import Message, mentioned_ids, new_message
from tests.standin.reply import Call, NotAnsweredError, Reply
from tests.standin.rest import BODY_LIMIT, Rest
from tests.standin.world import MEMBER, Channel, Json, Person, Server, member

SILENCE = 0.3  # seconds after which a bot that has not answered is taken to stay silent


class StandIn:
    """A loopback Discord. Use as `async with StandIn() as standin`; leaving it raises when a limit was broken.

    `check` walks every payload over the platform's limits; `record` keeps all requests and replies (turn both off for
    load runs); `privileged` is the set of privileged intents granted; `servers` are joined from the start.
    """

    def __init__(
        self, *, servers: tuple[Server, ...] | None = None, check: bool = True, record: bool = True, privileged: int = 0
    ) -> None:
        self.bot = Person("scale bot", bot=True)
        self.asker = Person("asker")
        self.ledger = Ledger(self.bot, check=check, record=record)
        for server in (Server("home"),) if servers is None else servers:
            self.ledger.join(server)
        self.home = next(iter(self.ledger.servers.values()), Server("nowhere"))
        self.gateway = Gateway(self.ledger, privileged)
        self.ledger.echo = self.gateway.echo
        self.rest = Rest(self.ledger)
        self._runner: web.AppRunner | None = None

    async def __aenter__(self) -> Self:
        app = web.Application(client_max_size=BODY_LIMIT)
        self.rest.add_to(app)
        self.gateway.add_to(app)
        self._runner = web.AppRunner(app, access_log=None, shutdown_timeout=1)
        await self._runner.setup()
        site = web.TCPSite(self._runner, "127.0.0.1", 0)
        await site.start()
        host, port = self._runner.addresses[0][:2]
        self.ledger.base = f"http://{host}:{port}"
        return self

    async def __aexit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        await self.gateway.close()
        assert self._runner is not None
        await self._runner.cleanup()
        if error is None and self.ledger.violations:
            raise AssertionError("the bot broke the platform's limits:\n" + "\n".join(self.ledger.violations))

    # --- what there is -------------------------------------------------------------------------------------------

    @property
    def base(self) -> str:
        """http://127.0.0.1:PORT"""
        return self.ledger.base

    @property
    def calls(self) -> list[Call]:
        """Every request of the bot, in order."""
        return self.ledger.calls

    @property
    def violations(self) -> list[str]:
        """Limits broken so far."""
        return self.ledger.violations

    @property
    def commands(self) -> list[Json]:
        """The global commands as registered."""
        return self.ledger.commands.get(None, [])

    def take_violations(self) -> list[str]:
        """The broken limits, which then no longer fail the test: for tests that break one on purpose."""
        taken, self.ledger.violations = self.ledger.violations, []
        return taken

    def register(self, commands: list[Json], server: Server | None = None) -> None:
        """Put commands in place as if an earlier run had synced them."""
        made = [self.rest.registry.made(command, server.id if server else None) for command in commands]
        self.ledger.commands[server.id if server else None] = made

    async def ready(self, seconds: float = 10.0, **counts: int) -> None:
        """Until the bot is connected (`sessions`, `identifies`, `resumes`: at least so many)."""
        await self.gateway.wait(seconds, **counts)

    # --- asking --------------------------------------------------------------------------------------------------

    async def slash(self, name: str, options: Mapping[str, Any] | None = None, **where: Unpack[Where]) -> Reply:
        """Use a slash command; "group sub" for a subcommand. Values: text, numbers, Person, Role, Channel, Upload."""
        data = asking.slash(self.ledger, name, options or {}, where, self.home)
        return await self._ask(asking.COMMAND, data, where)

    async def autocomplete(self, name: str, options: Mapping[str, Any], focused: str, **where: Unpack[Where]) -> Reply:
        """Type into the option `focused`; the reply has `choices`."""
        data = asking.slash(self.ledger, name, options, where, self.home, focused)
        return await self._ask(asking.AUTOCOMPLETE, data, where)

    async def message_menu(self, name: str, message: Message | str, **where: Unpack[Where]) -> Reply:
        """Use a menu entry on a message, or on a fresh one with that text."""
        server = where.get("guild", self.home)
        registered = self.ledger.command(name, asking.MESSAGE_ENTRY, server)
        if registered is None and self.ledger.commands:
            raise ImpossibleError(f"no message menu entry {name!r}")
        target = message if isinstance(message, Message) else self.written(message, **where)
        resolved = {"messages": {str(target.id): target.payload}}
        data = {"id": (registered or {"id": "1"})["id"], "name": name, "type": asking.MESSAGE_ENTRY}
        data.update(target_id=str(target.id), resolved=resolved)
        return await self._ask(asking.COMMAND, data, where)

    async def press(self, button: str, message: Message | Reply, **where: Unpack[Where]) -> Reply:
        """Press the button with that custom_id or label."""
        target, control = self._control(button, message, (BUTTON,))
        if control.get("disabled"):
            raise ImpossibleError(f"{button} is disabled")
        data = {"custom_id": control["custom_id"], "component_type": BUTTON}
        return await self._ask(asking.COMPONENT, data, where, target)

    async def select(self, select: str, values: list[Any], message: Message | Reply, **where: Unpack[Where]) -> Reply:
        """Choose options (by value or label; Person, Role, Channel in the selects of these)."""
        target, control = self._control(select, message, SELECTS)
        return await self._ask(asking.COMPONENT, asking.selection(self.ledger, control, values), where, target)

    async def submit(self, form: str | Reply, values: Mapping[str, Any], **where: Unpack[Where]) -> Reply:
        """Submit an open form (its custom_id, or the reply that opened it) with values by custom_id or label."""
        opener = form if isinstance(form, Reply) else self.ledger.modals.get(form)
        if opener is None:
            raise ImpossibleError(f"no form {form!r} is open")
        data = asking.submission(self.ledger, opener.modal, values)
        opened_in = int(opener.asked["channel_id"])
        where.setdefault("user", asking.asker_of(self.ledger, opener.asked))
        where.setdefault("guild", self.ledger.places[opened_in])
        where.setdefault("channel", self.ledger.channels[opened_in])
        return await self._ask(asking.SUBMIT, data, where, opener.original if "message" in opener.asked else None)

    async def message(self, text: str, mention: bool = False, dm: bool = False, **where: Unpack[Where]) -> Reply:
        """Write a message: plainly in the home server, or mentioning the bot, or directly to it."""
        if dm:
            where["guild"] = None
        if mention:
            text = f"<@{self.bot.id}> {text}"
        server = where.get("guild", self.home)
        message = self.written(text, **where)
        intent = DIRECT_MESSAGES if server is None else GUILD_MESSAGES
        reply = Reply(message.payload, message)
        self.ledger.heard[message.id] = self.ledger.heard[message.channel_id] = reply
        for _ in range(where.get("deliveries", 1)):
            await self.gateway.dispatch("MESSAGE_CREATE", self._visible(message), server.id if server else None, intent)
        return await self._await(reply, where)

    def written(self, text: str, **where: Unpack[Where]) -> Message:
        """A person's message that is simply there, without an event."""
        person, server = where.get("user", self.asker), where.get("guild", self.home)
        channel = where.get("channel") or (server.channels[0] if server else self.ledger.direct_channel(person))
        self.ledger.people[person.id] = person
        self.ledger.see(channel, server)
        message = new_message(person, channel.id, content=text)
        if server is not None:
            full = member(person, where.get("permissions", MEMBER), where.get("roles", ()))
            partial = {key: value for key, value in full.items() if key not in ("user", "permissions")}
            message.payload.update(guild_id=str(server.id), member=partial)
        known = {**self.ledger.people, self.bot.id: self.bot}
        message.payload["mentions"] = [known[found].json() for found in mentioned_ids(text) if found in known]
        self.ledger.messages[message.id] = message
        return message

    # --- what happens around the bot -----------------------------------------------------------------------------

    async def join(self, server: Server) -> None:
        """The bot is added to a server."""
        self.ledger.join(server)
        await self.gateway.dispatch("GUILD_CREATE", server.json(self.bot), server.id, GUILDS)

    async def leave(self, server: Server) -> None:
        """The bot is removed from a server."""
        self.ledger.leave(server)
        await self.gateway.dispatch("GUILD_DELETE", {"id": str(server.id)}, server.id, GUILDS)

    async def outage(self, server: Server) -> None:
        """The server becomes unavailable, which is not a removal."""
        await self.gateway.dispatch("GUILD_DELETE", {"id": str(server.id), "unavailable": True}, server.id, GUILDS)

    async def delete(self, message: Message) -> None:
        """Somebody deletes a message."""
        message.deleted = True
        server = self.ledger.places[message.channel_id]
        intent = GUILD_MESSAGES if server else DIRECT_MESSAGES
        data: Json = {"id": str(message.id), "channel_id": str(message.channel_id)}
        if server:
            data["guild_id"] = str(server.id)
        if any(session.wants(intent) for session in self.gateway.sessions.values()):
            await self.gateway.dispatch("MESSAGE_DELETE", data, server.id if server else None, intent)

    def fault(self, where: str, *faults: Fault) -> None:
        """What the next requests of a kind get: callback, followup, edit, message, sync, direct, login..."""
        self.ledger.faults[where].extend(faults)

    def deny(self, channel: Channel, code: int = 50013) -> None:
        """Requests to that channel are refused: 50013 missing permissions, 50001 no access, 50007 closed to the bot."""
        self.ledger.denied[channel.id] = code

    def direct_channel(self, person: Person) -> Channel:
        return self.ledger.direct_channel(person)

    def expire(self, reply: Reply) -> None:
        """The interaction's 15 minutes are over: its token is worth nothing any more."""
        reply.expired = True

    async def drop(self) -> None:
        """Cut the gateway connections and wait until the bot has resumed."""
        resumes, sessions = self.gateway.resumes, len(self.gateway.sessions)
        self.gateway.drop()
        await self.ready(resumes=resumes + sessions)

    async def reconnect(self) -> None:
        """Op 7, and wait for the resume."""
        resumes, sessions = self.gateway.resumes, len(self.gateway.sessions)
        await self.gateway.reconnect()
        await self.ready(resumes=resumes + sessions)

    async def invalidate(self, resumable: bool = False) -> None:
        """Op 9, and wait for the resume or the new identify (before which discord.py waits 5 s, see run.running)."""
        resumes, identifies = self.gateway.resumes, len(self.gateway.identifies)
        sessions = len(self.gateway.sessions)
        await self.gateway.invalidate(resumable)
        if resumable:
            await self.ready(resumes=resumes + sessions)
        else:
            await self.ready(identifies=identifies + sessions)

    # --- inside --------------------------------------------------------------------------------------------------

    def _visible(self, message: Message) -> Json:
        """Without the content intent the text is empty, except in direct messages and where the bot is mentioned."""
        payload = message.payload
        mentioned = any(person["id"] == str(self.bot.id) for person in payload["mentions"])
        granted = any(session.intents & MESSAGE_CONTENT for session in self.gateway.sessions.values())
        if "guild_id" not in payload or mentioned or granted:
            return payload
        return {**payload, "content": "", "embeds": [], "attachments": [], "components": []}

    def _control(self, key: str, message: Message | Reply, kinds: tuple[int, ...]) -> tuple[Message, Json]:
        target = message.message if isinstance(message, Reply) else message
        control = target.control(key)
        if control["type"] not in kinds:
            raise ImpossibleError(f"{key} is of type {control['type']}, not {kinds}")
        return target, control

    def _same_place(self, original: Message, where: Where) -> None:
        """What is used on a message is used where that message is, through the same installation."""
        where.setdefault("guild", self.ledger.places[original.channel_id])
        where.setdefault("channel", self.ledger.channels[original.channel_id])
        owners = original.payload.get("interaction_metadata", {}).get("authorizing_integration_owners", {"0": ""})
        where.setdefault("install", "guild" if "0" in owners else "user")

    async def _ask(self, kind: int, data: Json, where: Where, original: Message | None = None) -> Reply:
        if original is not None:
            self._same_place(original, where)
        payload = asking.interaction(self.ledger, kind, data, where, self.home, self.asker)
        if original is not None:
            payload["message"] = original.payload
        reply = Reply(payload, original, where.get("deadline", 3.0))
        self.ledger.replies[payload["token"]] = reply
        server_id = int(payload["guild_id"]) if "guild_id" in payload else None
        for _ in range(where.get("deliveries", 1)):
            await self.gateway.dispatch("INTERACTION_CREATE", payload, server_id)
        return await self._await(reply, where)

    async def _await(self, reply: Reply, where: Where) -> Reply:
        expect: Expect = where.get("expect", "answer")
        wait = where.get("wait", SILENCE if expect in ("silence", "anything") else 5.0)
        try:
            if expect == "answer":
                await reply.until(lambda r: r.answered, wait)
            elif expect == "acknowledged":
                await reply.until(lambda r: r.acknowledged_after is not None, wait)
            else:
                await asyncio.sleep(wait)
                if expect == "silence" and reply.acknowledged_after is not None:
                    raise NotAnsweredError(f"the bot was to stay silent, but answered {reply.callback}")
        finally:
            if not self.ledger.record:
                self.ledger.forget(reply)
        return reply
