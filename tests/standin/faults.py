"""Ways the API can fail on purpose: what the next matching request gets instead of an honest answer.

Error codes 10062 and 40060 are in Discord's official documentation; the other codes and their wording are from memory.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

Json = dict[str, Any]

# code: HTTP status and message
ERRORS: dict[int, tuple[int, str]] = {
    0: (404, "404: Not Found"),
    10003: (404, "Unknown Channel"),
    10004: (404, "Unknown Guild"),
    10008: (404, "Unknown Message"),
    10013: (404, "Unknown User"),
    10015: (404, "Unknown Webhook"),
    10062: (404, "Unknown interaction"),
    10063: (404, "Unknown application command"),
    40094: (400, "This interaction has hit the maximum number of follow up messages."),
    40060: (400, "Interaction has already been acknowledged."),
    50001: (403, "Missing Access"),
    50005: (403, "Cannot edit a message authored by another user"),
    50006: (400, "Cannot send an empty message"),
    50007: (403, "Cannot send messages to this user"),
    50013: (403, "Missing Permissions"),
    50035: (400, "Invalid Form Body"),
    160002: (400, "Cannot reply without permission to read message history"),
    50027: (401, "Invalid Webhook Token"),
}


class ApiError(Exception):
    """An API error to be sent back instead of an answer."""

    def __init__(self, status: int, body: Json) -> None:
        super().__init__(body)
        self.status = status
        self.body = body


def refused(code: int) -> ApiError:
    """The API error known by `code`."""
    status, message = ERRORS[code]
    return ApiError(status, {"code": code, "message": message})


@dataclass(frozen=True, slots=True)
class Fault:
    """One failure. `status` 0 means that the connection is cut; `taken` that the request still did its work."""

    status: int
    body: Json = field(default_factory=dict)
    headers: dict[str, str] = field(default_factory=dict)
    taken: bool = False
    delay: float = 0.0


def refusal(code: int) -> Fault:
    """An error the API knows by `code`."""
    error = refused(code)
    return Fault(error.status, error.body)


def too_many(retry_after: float = 0.05, via: bool = True) -> Fault:
    """429. Without a Via header discord.py takes it for a ban and does not wait."""
    headers = {"Retry-After": str(retry_after), **({"Via": "1.1 standin"} if via else {})}
    body = {"message": "You are being rate limited.", "retry_after": retry_after, "global": False}
    return Fault(429, body, headers)


def broken(status: int = 500) -> Fault:
    """A server error."""
    return Fault(status, {"message": f"{status}: Server Error", "code": 0})


def unknown_interaction() -> Fault:
    """404 with code 10062: the interaction was answered too late."""
    return refusal(10062)


def cut(taken: bool = False) -> Fault:
    """The connection is reset, before the request was looked at or (taken) after it did its work."""
    return Fault(0, taken=taken)


def slow(seconds: float) -> Fault:
    """An honest answer, but late: status 200 stands for "no failure"."""
    return Fault(200, taken=True, delay=seconds)
