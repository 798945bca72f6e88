"""The application itself: who the bot is, its registered commands, its servers and people."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from tests.standin.faults import refused
from tests.standin.ledger import Ledger, Sent
from tests.standin.world import MEMBER, Json, member, snowflake

Answer = tuple[int, Any]


@dataclass(slots=True)
class Registry:
    ledger: Ledger
    shards: int = 1

    def me(self, sent: Sent) -> Answer:
        return 200, {**self.ledger.bot.json(), "verified": True, "mfa_enabled": False, "flags": 0, "locale": "en-US"}

    def application(self, sent: Sent) -> Answer:
        return 200, {
            "id": str(self.ledger.bot.id),
            "name": self.ledger.bot.name,
            "icon": None,
            "description": "",
            "bot_public": True,
            "bot_require_code_grant": False,
            "verify_key": "00",
            "flags": 0,
            "owner": self.ledger.bot.json(),
        }

    def gateway(self, sent: Sent) -> Answer:
        limit = {"total": 1000, "remaining": 1000, "reset_after": 0, "max_concurrency": 16}
        url = self.ledger.base.replace("http", "ws", 1) + "/gw/"
        return 200, {"url": url, "shards": self.shards, "session_start_limit": limit}

    def overwrite(self, sent: Sent) -> Answer:
        """PUT: all commands of a scope replaced."""
        self.ledger.examine("commands", sent.body, sent)
        scope = self._scope(sent)
        known = {(c["name"], c.get("type", 1)): c["id"] for c in self.ledger.commands.get(scope, ())}
        made = [self.made(c, scope, known.get((c["name"], c.get("type", 1)))) for c in sent.body]
        self.ledger.commands[scope] = made
        return 200, made

    def upsert(self, sent: Sent) -> Answer:
        """POST: one command made or replaced."""
        self.ledger.examine("command", sent.body, sent)
        scope = self._scope(sent)
        others = self.ledger.commands.setdefault(scope, [])
        old = next((c for c in others if (c["name"], c["type"]) == (sent.body["name"], sent.body.get("type", 1))), None)
        made = self.made(sent.body, scope, old["id"] if old else None)
        others[:] = [*(c for c in others if c is not old), made]
        return 200, made

    def listed(self, sent: Sent) -> Answer:
        return 200, self.ledger.commands.get(self._scope(sent), [])

    def one(self, sent: Sent) -> Answer:
        return 200, self._found(sent)

    def remove(self, sent: Sent) -> Answer:
        found = self._found(sent)
        self.ledger.commands[self._scope(sent)].remove(found)
        return 204, None

    def person(self, sent: Sent) -> Answer:
        found = self.ledger.people.get(int(sent.match["person"]))
        if found is None:
            raise refused(10013)
        return 200, found.json()

    def server(self, sent: Sent) -> Answer:
        found = self.ledger.servers.get(int(sent.match["server"]))
        if found is None:
            raise refused(10004)
        return 200, found.json(self.ledger.bot)

    def member(self, sent: Sent) -> Answer:
        self.server(sent)
        found = self.ledger.people.get(int(sent.match["person"]))
        if found is None:
            raise refused(10013)
        return 200, member(found, MEMBER)

    def _scope(self, sent: Sent) -> int | None:
        server = sent.match.get("server")
        if server is not None and int(server) not in self.ledger.servers:
            raise refused(50001)
        return None if server is None else int(server)

    def _found(self, sent: Sent) -> Json:
        for command in self.ledger.commands.get(self._scope(sent), ()):
            if command["id"] == sent.match["command"]:
                return command
        raise refused(10063)

    def made(self, command: Json, scope: int | None, known_id: str | None = None) -> Json:
        made = {"type": 1, "description": "", "options": [], **command}
        made.update(id=known_id or str(snowflake()), application_id=str(self.ledger.bot.id), version=str(snowflake()))
        return made if scope is None else {**made, "guild_id": str(scope)}
