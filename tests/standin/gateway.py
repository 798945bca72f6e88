"""The gateway side of the stand-in: sessions, heartbeats, resuming, and events to the right shard."""

from __future__ import annotations

import asyncio
import json
from collections import deque
from contextlib import suppress
from dataclasses import dataclass, field
from typing import Any

from aiohttp import WSMsgType, web

from tests.standin.ledger import TOKEN, Ledger
from tests.standin.world import Json, Server, snowflake

DISPATCH, HEARTBEAT, IDENTIFY, RESUME, RECONNECT, INVALID, HELLO, ACK = 0, 1, 2, 6, 7, 9, 10, 11
GUILDS, MEMBERS, PRESENCES = 1 << 0, 1 << 1, 1 << 8
GUILD_MESSAGES, DIRECT_MESSAGES, MESSAGE_CONTENT = 1 << 9, 1 << 12, 1 << 15
PRIVILEGED = MEMBERS | PRESENCES | MESSAGE_CONTENT
BAD_TOKEN, BAD_SHARD, DISALLOWED_INTENTS = 4004, 4010, 4014
KEPT_EVENTS = 1000


class NotConnectedError(AssertionError):
    """No session could take the event: the bot is not there. The platform would lose it too."""


@dataclass(slots=True)
class Session:
    id: str
    intents: int
    shard: int
    shards: int
    socket: web.WebSocketResponse | None
    request: web.Request | None
    away: bool = False  # cut off by the stand-in, and expected to resume
    sequence: int = 0
    kept: deque[Json] = field(default_factory=lambda: deque(maxlen=KEPT_EVENTS))

    async def send(self, event: str, data: Any) -> None:
        """Send now, or keep it for after a resume."""
        self.sequence += 1
        packet = {"op": DISPATCH, "s": self.sequence, "t": event, "d": data}
        self.kept.append(packet)
        await self.push(packet)

    async def push(self, packet: Json) -> None:
        socket = self.socket
        if socket is not None and not socket.closed:
            try:
                await socket.send_str(json.dumps(packet))
            except ConnectionError:  # just dropped: a dispatch stays kept for the resume
                self.socket = None

    def wants(self, intent: int) -> bool:
        return not intent or bool(self.intents & intent)


class Gateway:
    """All sessions of the bot. `identifies` and `resumes` count what came in."""

    def __init__(self, ledger: Ledger, privileged: int = 0) -> None:
        self.ledger = ledger
        self.allowed = privileged  # which privileged intents the application was granted
        self.sessions: dict[str, Session] = {}
        self.identifies: list[Json] = []
        self.resumes = 0
        self._changed = asyncio.Event()
        self._sending: set[asyncio.Task[None]] = set()

    def add_to(self, app: web.Application) -> None:
        app.router.add_get("/gw/", self._handle)

    async def wait(self, seconds: float, sessions: int = 1, identifies: int = 0, resumes: int = 0) -> None:
        """Until so many sessions are connected and so many identifies and resumes were seen."""

        def there() -> bool:
            connected = sum(session.socket is not None for session in self.sessions.values())
            return connected >= sessions and len(self.identifies) >= identifies and self.resumes >= resumes

        try:
            async with asyncio.timeout(seconds):
                while not there():
                    self._changed.clear()
                    await self._changed.wait()
        except TimeoutError:
            raise NotConnectedError(f"the bot did not connect within {seconds} s") from None

    async def all_gone(self, seconds: float = 1.0) -> None:
        """Until every connection has ended, so that the next event finds no bot."""
        with suppress(TimeoutError):
            async with asyncio.timeout(seconds):
                while any(session.socket is not None for session in self.sessions.values()):
                    self._changed.clear()
                    await self._changed.wait()

    async def dispatch(self, event: str, data: Json, server: int | None = None, intent: int = 0) -> Session:
        """Send an event to the shard of `server` (direct messages go to shard 0)."""
        for session in self.sessions.values():
            shard = 0 if server is None else (server >> 22) % session.shards
            here = session.socket is not None or session.away
            if here and session.shard == shard and session.wants(intent):
                await session.send(event, data)
                return session
        raise NotConnectedError(f"no session takes {event}")

    def echo(self, event: str, message: Json) -> None:
        """Tell the bot of a message of its own, when it listens to such."""
        server = message.get("guild_id")
        intent = GUILD_MESSAGES if server else DIRECT_MESSAGES
        shard_of = (int(server) >> 22) if server else 0
        for session in self.sessions.values():
            if session.shard == shard_of % session.shards and session.wants(intent):
                task = asyncio.ensure_future(session.send(event, message))
                self._sending.add(task)
                task.add_done_callback(self._sending.discard)

    async def reconnect(self) -> None:
        """Op 7: every connection is asked to reconnect and resume."""
        await self._control({"op": RECONNECT, "d": None})

    async def invalidate(self, resumable: bool) -> None:
        """Op 9: the sessions are invalid; those that are not resumable are forgotten."""
        await self._control({"op": INVALID, "d": resumable}, forget=not resumable)

    def drop(self) -> None:
        """Cut every gateway connection without a word; the sessions can be resumed."""
        for session in self.sessions.values():
            session.socket, session.away = None, True
            if session.request is not None and session.request.transport is not None:
                session.request.transport.abort()

    async def close(self) -> None:
        for session in self.sessions.values():
            if session.socket is not None:
                await session.socket.close()

    async def _control(self, packet: Json, forget: bool = False) -> None:
        sessions = list(self.sessions.values())
        if forget:
            self.sessions.clear()
        for session in sessions:
            await session.push(packet)
            session.socket, session.away = None, True

    async def _handle(self, request: web.Request) -> web.WebSocketResponse:
        socket = web.WebSocketResponse(max_msg_size=0, compress=False)
        await socket.prepare(request)
        await socket.send_str(json.dumps({"op": HELLO, "d": {"heartbeat_interval": 41250}}))
        session: Session | None = None
        async for packet in socket:
            if packet.type is not WSMsgType.TEXT:
                break
            message = json.loads(packet.data)
            if message["op"] == HEARTBEAT:
                await socket.send_str(json.dumps({"op": ACK}))
            elif message["op"] == IDENTIFY:
                session = await self._identify(message["d"], socket, request)
            elif message["op"] == RESUME:
                session = await self._resume(message["d"], socket, request)
        self._ended(session, socket)
        return socket

    def _ended(self, session: Session | None, socket: web.WebSocketResponse) -> None:
        if session is None or session.socket is not socket:
            return
        # kept, since discord.py leaves with 4000 whether it will resume or not; but no event goes there meanwhile
        session.socket = None
        self._changed.set()

    async def _identify(self, data: Json, socket: web.WebSocketResponse, request: web.Request) -> Session | None:
        self.identifies.append(data)
        shard, shards = data.get("shard") or (0, 1)
        refusal = None
        if data["token"] != TOKEN:
            refusal = BAD_TOKEN
        elif data["intents"] & PRIVILEGED & ~self.allowed:
            refusal = DISALLOWED_INTENTS
        elif not 0 <= shard < shards:
            refusal = BAD_SHARD
        if refusal is not None:
            await socket.close(code=refusal)
            return None
        session = Session(f"session-{snowflake()}", data["intents"], shard, shards, socket, request)
        for old in [s for s in self.sessions.values() if s.shard == shard]:
            del self.sessions[old.id]
        mine = [server for server in self.ledger.servers.values() if (server.id >> 22) % shards == shard]
        await session.send("READY", self._ready(session, mine, sharded="shard" in data))
        self.sessions[session.id] = session
        if session.intents & GUILDS:
            for server in mine:
                # "unavailable" is what tells an old server from a new one
                await session.send("GUILD_CREATE", {**server.json(self.ledger.bot), "unavailable": False})
        self._changed.set()
        return session

    async def _resume(self, data: Json, socket: web.WebSocketResponse, request: web.Request) -> Session | None:
        session = self.sessions.get(data["session_id"])
        if session is None or data["token"] != TOKEN:
            await socket.send_str(json.dumps({"op": INVALID, "d": False}))
            return None
        session.socket, session.request, session.away = socket, request, False
        for packet in [p for p in session.kept if p["s"] > data["seq"]]:
            await session.push(packet)
        await session.send("RESUMED", {"_trace": []})
        self.resumes += 1
        self._changed.set()
        return session

    def _ready(self, session: Session, servers: list[Server], sharded: bool) -> Json:
        ready = {
            "v": 10,
            "user": self.ledger.bot.json(),
            "guilds": [{"id": str(server.id), "unavailable": True} for server in servers],
            "session_id": session.id,
            "resume_gateway_url": self.ledger.base.replace("http", "ws", 1) + "/gw/",
            "application": {"id": str(self.ledger.bot.id), "flags": 0},
            "_trace": [],
        }
        return {**ready, "shard": [session.shard, session.shards]} if sharded else ready
