"""How answers to interactions are sent: without having the whole message sent back, read and built again."""

from __future__ import annotations

from typing import Any

import aiohttp
from discord.http import MultipartParameters, Route
from discord.webhook.async_ import AsyncWebhookAdapter, async_context


class Adapter(AsyncWebhookAdapter):
    """discord.py's own, but for one request: it asks the platform to send every answer back (`with_response`), which
    nothing here looks at."""

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
        route = Route(
            "POST",
            "/interactions/{webhook_id}/{webhook_token}/callback",
            webhook_id=interaction_id,
            webhook_token=token,
        )
        body: dict[str, Any] = (
            {"files": params.files, "multipart": params.multipart} if params.files else {"payload": params.payload}
        )
        await self.request(route, session=session, proxy=proxy, proxy_auth=proxy_auth, **body)
        return {"interaction": {"id": str(interaction_id), "type": 0}}


def use() -> None:
    """Answer so in this task and those it starts."""
    async_context.set(Adapter())  # type: ignore[no-untyped-call]
