"""How answers to interactions are sent: as finished payloads, and without having the whole message sent back, read
and built again."""

from __future__ import annotations

import asyncio
import json
from typing import Any

import aiohttp
import discord
from discord.http import MultipartParameters, Route, json_or_text
from discord.webhook.async_ import AsyncWebhookAdapter, async_context
from yarl import URL

JSON = {"Content-Type": "application/json"}
REFUSED = {403: discord.Forbidden, 404: discord.NotFound}
_written = json.JSONEncoder(separators=(",", ":"), check_circular=False).encode


class Adapter(AsyncWebhookAdapter):
    """discord.py's own, but for one request: it asks the platform to send every answer back (`with_response`), which
    nothing here looks at, and keeps a lock for each interaction, though only one first response is ever sent."""

    async def create_interaction_response(  # type: ignore[override]  # the parent returns the same, not yet awaited
        self,
        interaction_id: int,
        token: str,
        *,
        session: aiohttp.ClientSession,
        proxy: str | None = None,
        proxy_auth: aiohttp.BasicAuth | None = None,
        params: MultipartParameters,
    ) -> dict[str, Any]:
        """Send the callback; the platform answers 204 without a word."""
        usual: dict[str, Any] = {"session": session, "proxy": proxy, "proxy_auth": proxy_auth}
        if params.files or not await self._sent(interaction_id, token, params.payload, **usual):
            route = Route(
                "POST",
                "/interactions/{webhook_id}/{webhook_token}/callback",
                webhook_id=interaction_id,
                webhook_token=token,
            )
            body: dict[str, Any] = (
                {"files": params.files, "multipart": params.multipart} if params.files else {"payload": params.payload}
            )
            await self.request(route, **usual, **body)
        return {"interaction": {"id": str(interaction_id), "type": 0}}

    async def _sent(
        self, interaction_id: int, token: str, payload: Any, *, session: aiohttp.ClientSession, **proxies: Any
    ) -> bool:
        """Send it once. False where it may be tried again, as the library does, and the time for that has come."""
        # Ids and tokens consist of what an address may hold; finding that out for each would take longer than this.
        url = URL(f"{Route.BASE}/interactions/{interaction_id}/{token}/callback", encoded=True)
        async with session.post(url, data=_written(payload).encode(), headers=JSON, **proxies) as response:
            if response.status < 300:
                return True
            said: Any = await json_or_text(response)
        if response.status == 429 and response.headers.get("Via"):
            await asyncio.sleep(said["retry_after"])
        elif response.status >= 500:
            await asyncio.sleep(1)
        else:
            raise REFUSED.get(response.status, discord.HTTPException)(response, said)
        return False


async def respond(interaction: discord.Interaction[Any], kind: discord.InteractionResponseType, data: Any) -> None:
    """The first response of that kind. The library's own ways build it from objects, and an object of it again."""
    if interaction.response.is_done():
        raise discord.InteractionResponded(interaction)
    http = interaction.client.http
    await async_context.get().create_interaction_response(
        interaction.id,
        interaction.token,
        session=interaction._session,
        proxy=http.proxy,
        proxy_auth=http.proxy_auth,
        params=MultipartParameters(payload={"type": kind.value, "data": data}, multipart=None, files=None),
    )
    interaction.response._response_type = kind  # what `is_done` looks at (discord.py 2.7)


def use() -> None:
    """Answer so in this task and those it starts."""
    async_context.set(Adapter())  # type: ignore[no-untyped-call]
