"""The HTTP side of the stand-in: routes, parsing, planned faults, and the record of every request."""

from __future__ import annotations

import asyncio
import json
import socket
import struct
import time
from collections.abc import Callable
from typing import Any

from aiohttp import BodyPartReader, web

from tests.standin.callbacks import Callbacks
from tests.standin.channels import Channels
from tests.standin.faults import ApiError, Fault
from tests.standin.ledger import HTTP_METHODS, TOKEN, Ledger, Sent
from tests.standin.registry import Registry
from tests.standin.reply import Call
from tests.standin.world import Json

BODY_LIMIT = 25 * 1024 * 1024
API = "/api/v10"
Work = Callable[[Sent], tuple[int, Any]]
UNAUTHORIZED = ApiError(401, {"message": "401: Unauthorized", "code": 0})


class Rest:
    """Adds the API's routes to an aiohttp application."""

    def __init__(self, ledger: Ledger) -> None:
        self.ledger = ledger
        self.registry = Registry(ledger)
        self.callbacks = Callbacks(ledger)
        self.channels = Channels(ledger)

    def add_to(self, app: web.Application) -> None:
        """Routes: method, path, the work, and the name under which a fault can be planned for it."""
        registry, callbacks, channels = self.registry, self.callbacks, self.channels
        free: list[tuple[str, str, Work, str]] = [
            ("POST", "/interactions/{interaction}/{token}/callback", callbacks.callback, "callback"),
            ("POST", "/webhooks/{app}/{token}", callbacks.followup, "followup"),
            ("GET", "/webhooks/{app}/{token}/messages/{message}", callbacks.fetch, "fetch"),
            ("PATCH", "/webhooks/{app}/{token}/messages/{message}", callbacks.edit, "edit"),
            ("DELETE", "/webhooks/{app}/{token}/messages/{message}", callbacks.delete, "delete"),
        ]
        owned: list[tuple[str, str, Work, str]] = [
            ("GET", "/users/@me", registry.me, "login"),
            ("GET", "/oauth2/applications/@me", registry.application, "application"),
            ("GET", "/gateway/bot", registry.gateway, "gateway"),
            ("POST", "/users/@me/channels", channels.open_direct, "direct"),
            ("GET", "/users/{person}", registry.person, "person"),
            ("GET", "/guilds/{server}", registry.server, "server"),
            ("GET", "/guilds/{server}/members/{person}", registry.member, "member"),
            ("GET", "/channels/{channel}", channels.get, "channel"),
            ("POST", "/channels/{channel}/typing", channels.typing, "typing"),
            ("POST", "/channels/{channel}/messages", channels.post, "message"),
            ("GET", "/channels/{channel}/messages/{message}", channels.fetch, "fetch"),
            ("PATCH", "/channels/{channel}/messages/{message}", channels.edit, "edit"),
            ("DELETE", "/channels/{channel}/messages/{message}", channels.delete, "delete"),
        ]
        for scope in ("/applications/{app}/commands", "/applications/{app}/guilds/{server}/commands"):
            owned += [
                ("GET", scope, registry.listed, "commands"),
                ("PUT", scope, registry.overwrite, "sync"),
                ("POST", scope, registry.upsert, "sync"),
                ("GET", scope + "/{command}", registry.one, "commands"),
                ("DELETE", scope + "/{command}", registry.remove, "sync"),
            ]
        for secured, routes in ((False, free), (True, owned)):
            for method, path, work, where in routes:
                app.router.add_route(method, API + path, self._handler(work, where, secured))
        app.router.add_get("/cdn/{id}/{name}", self._download)
        for method in HTTP_METHODS:
            app.router.add_route(method, API + "/{tail:.*}", self._handler(self._unknown, "unknown", False))

    def _handler(self, work: Work, where: str, secured: bool) -> Callable[[web.Request], Any]:
        async def handle(request: web.Request) -> web.Response:
            body, files = await _parsed(request)
            sent = Sent(request.method, request.path.removeprefix(API), request.match_info, body, files, request.query)
            fault = self.ledger.fault(where)
            if fault is not None and fault.delay:
                await asyncio.sleep(fault.delay)
            try:
                if secured and request.headers.get("Authorization") != f"Bot {TOKEN}":
                    raise UNAUTHORIZED
                # a fault that is not "taken" keeps the request from doing its work
                status, answer = work(sent) if fault is None or fault.taken else (0, None)
            except ApiError as refusal:
                status, answer = refusal.status, refusal.body
            if fault is not None and fault.status != 200:
                status, answer = fault.status, fault.body
            self._note(sent, status, answer)
            if status == 0:
                return _reset(request)
            return _response(status, answer, fault)

        return handle

    def _note(self, sent: Sent, status: int, answer: Any) -> None:
        refused = answer.get("code", 0) if status >= 400 and isinstance(answer, dict) else 0
        reply = self.ledger.replies.get(sent.match.get("token", ""))
        if not self.ledger.record and reply is None:
            return
        call = Call(sent.method, sent.path, sent.body, sent.files, status, refused, time.perf_counter())
        if self.ledger.record:
            self.ledger.calls.append(call)
        if reply is not None:
            reply.calls.append(call)
            reply.wake()

    def _unknown(self, sent: Sent) -> tuple[int, Any]:
        self.ledger.violations.append(f"{sent.method} {sent.path}: the stand-in knows no such route")
        return 404, {"message": "404: Not Found", "code": 0}

    async def _download(self, request: web.Request) -> web.Response:
        key = f"{request.match_info['id']}/{request.match_info['name']}"
        data = self.ledger.uploads.get(key)
        if data is None:
            return web.Response(status=404)
        return web.Response(body=data, headers={"Content-Type": "application/octet-stream"})


async def _parsed(request: web.Request) -> tuple[Any, dict[str, bytes]]:
    """The JSON body and the files by name."""
    if request.content_type != "multipart/form-data":
        raw = await request.read()
        return (json.loads(raw) if raw else {}), {}
    body: Json = {}
    files: dict[str, bytes] = {}
    reader = await request.multipart()
    while isinstance(part := await reader.next(), BodyPartReader):
        data = bytes(await part.read())
        if part.name == "payload_json":
            body = json.loads(data)
        else:
            files[part.filename or part.name or "file"] = data
    return body, files


def _response(status: int, answer: Any, fault: Fault | None) -> web.Response:
    # discord.py only parses the exact type, so no charset
    headers = {"Content-Type": "application/json", **(fault.headers if fault else {})}
    if status == 204:
        return web.Response(status=204)
    return web.Response(status=status, body=json.dumps(answer).encode(), headers=headers)


def _reset(request: web.Request) -> web.Response:
    """Cut the connection so hard that the other side sees a reset, not an orderly end."""
    transport = request.transport
    if transport is not None:
        transport.get_extra_info("socket").setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
        transport.abort()
    return web.Response(status=500)
