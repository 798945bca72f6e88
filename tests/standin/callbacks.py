"""Interaction callbacks and follow-ups: what the API does when the bot answers."""

from __future__ import annotations

import time
from dataclasses import dataclass
from typing import Any

from tests.standin.breach import wrong
from tests.standin.faults import refused
from tests.standin.ledger import Ledger, Sent
from tests.standin.limits import (
    DEFER,
    DEFER_UPDATE,
    EPHEMERAL,
    MESSAGE,
    MODAL,
    SUBMIT_ASKED,
    UPDATE,
    answer_type,
)
from tests.standin.message import LOADING, Message, new_message
from tests.standin.reply import Reply
from tests.standin.world import SEND_MESSAGES, USE_EXTERNAL_APPS, Json

FOLLOW_UPS_OF_A_USER_APP = 5
REPLY_TYPE = 20  # message type "chat input command"; 19 is a plain reply
Answer = tuple[int, Any]


@dataclass(slots=True)
class Callbacks:
    ledger: Ledger

    def callback(self, sent: Sent) -> Answer:
        """POST /interactions/ID/TOKEN/callback; 204 unless the query asks for the message back (with_response)."""
        reply = self.ledger.replies.get(sent.match["token"])
        if reply is None or sent.match["interaction"] != reply.asked["id"] or self._late(reply):
            raise refused(10062)
        if reply.callback is not None:
            raise refused(40060)
        kind = sent.body.get("type")
        more = answer_type(reply.asked["type"], kind)
        if reply.asked["type"] == SUBMIT_ASKED and kind in (DEFER_UPDATE, UPDATE) and reply.original is None:
            more = [wrong(("type",), "a form that no message opened has no message to update")]
        self.ledger.examine("callback", sent.body, sent, more)
        data = sent.body.get("data") or {}
        if kind in (MESSAGE, UPDATE):
            self.ledger.examine_mentions(data, sent)
        message = self._take(reply, kind, data, sent)
        reply.callback = sent.body
        reply.mark(answered=kind not in (DEFER, DEFER_UPDATE))
        if sent.query.get("with_response") not in ("1", "true"):
            return 204, None
        resource: Json = {"type": kind}
        seen: Json = {"id": reply.asked["id"], "type": reply.asked["type"]}
        if message is not None:
            resource["message"] = message.payload
            seen["response_message_id"] = message.payload["id"]
            seen["response_message_loading"] = message.loading
            seen["response_message_ephemeral"] = message.ephemeral
        return 200, {"interaction": seen, "resource": resource}

    def followup(self, sent: Sent) -> Answer:
        """POST /webhooks/APP/TOKEN. Right after a deferral it fills the waiting message and keeps its visibility."""
        reply = self._live(sent)
        self.ledger.examine("message", sent.body, sent)
        self.ledger.examine_mentions(sent.body, sent)
        target = reply.answering
        if target is None or not target.loading:
            owners = reply.asked["authorizing_integration_owners"]
            if "0" not in owners and len(reply.messages) > FOLLOW_UPS_OF_A_USER_APP:
                raise refused(40094)
            target = self._new(reply, sent.body.get("flags") or 0)
        self._fill(reply, target, sent)
        return 200, target.payload

    def edit(self, sent: Sent) -> Answer:
        """PATCH /webhooks/APP/TOKEN/messages/ID (or @original)."""
        reply = self._live(sent)
        target = self._target(reply, sent)
        self.ledger.examine("edit", as_edited(target, sent.body), sent)
        self.ledger.examine_mentions(sent.body, sent)
        reply.edits += 1
        self._fill(reply, target, sent)
        return 200, target.payload

    def fetch(self, sent: Sent) -> Answer:
        """GET the same."""
        return 200, self._target(self._live(sent), sent).payload

    def delete(self, sent: Sent) -> Answer:
        """DELETE the same."""
        reply = self._live(sent)
        self._target(reply, sent).deleted = True
        reply.mark(answered=True)
        return 204, None

    def _late(self, reply: Reply) -> bool:
        return reply.expired or time.perf_counter() - reply.sent_at > reply.deadline

    def _live(self, sent: Sent) -> Reply:
        reply = self.ledger.replies.get(sent.match["token"])
        if reply is None or reply.callback is None:
            raise refused(10015)
        if reply.expired:
            raise refused(50027)
        return reply

    def _target(self, reply: Reply, sent: Sent) -> Message:
        key = sent.match["message"]
        found = reply.answering if key == "@original" else self.ledger.messages.get(int(key))
        if found is None or found.deleted:
            raise refused(10008)
        return found

    def _take(self, reply: Reply, kind: int, data: Json, sent: Sent) -> Message | None:
        """Do what the callback says; the message it makes or changes, if any."""
        if kind == MESSAGE:
            message = self._new(reply, data.get("flags") or 0)
            reply.answering = message
            reply.messages.append(message)
            self._write(message, data, sent)
            return message
        if kind == DEFER:
            reply.answering = self._new(reply, (data.get("flags") or 0) | LOADING)
            return reply.answering
        if kind in (UPDATE, DEFER_UPDATE):
            reply.answering = reply.original
            if kind == UPDATE and reply.original is not None:
                if reply.original.deleted:
                    raise refused(10008)
                self.ledger.examine("edit", as_edited(reply.original, data), sent)
                self._write(reply.original, data, sent)
            return reply.original
        if kind == MODAL:
            self.ledger.modals[data["custom_id"]] = reply
        return None

    def _new(self, reply: Reply, flags: int) -> Message:
        asked = reply.asked
        person = asked["member"]["user"] if "member" in asked else asked["user"]
        metadata = {"id": asked["id"], "type": asked["type"], "user": person}
        metadata["authorizing_integration_owners"] = asked["authorizing_integration_owners"]
        message = new_message(
            self.ledger.bot,
            int(asked["channel"]["id"]),
            flags | _forced_private(asked),
            REPLY_TYPE,
            application_id=str(self.ledger.bot.id),
            interaction_metadata=metadata,
        )
        self.ledger.messages[message.id] = message
        return message

    def _fill(self, reply: Reply, target: Message, sent: Sent) -> None:
        if target is not reply.original and target not in reply.messages:
            reply.messages.append(target)
        self._write(target, sent.body, sent)
        reply.mark(answered=True)

    def _write(self, message: Message, body: Json, sent: Sent) -> None:
        event = "MESSAGE_UPDATE" if message.sent else "MESSAGE_CREATE"
        message.apply(body, sent.files, self.ledger.base)
        if not message.ephemeral:
            self.ledger.echo(event, message.payload)


def as_edited(message: Message, body: Json) -> Json:
    """An edit's body with what it leaves standing, so that limits are seen on the whole message."""
    kept = {key: message.payload[key] for key in ("components", "attachments", "content", "embeds")}
    merged = {**kept, **body}
    merged["flags"] = (body.get("flags") or 0) | message.payload["flags"]
    return merged


def _forced_private(asked: Json) -> int:
    """Without the right to speak (or, for a user's own app, to use outside apps) only the asker sees the answer."""
    if "member" not in asked:
        return 0
    permissions = int(asked["member"]["permissions"])
    own_app_only = "0" not in asked["authorizing_integration_owners"]
    may_speak = permissions & SEND_MESSAGES and (permissions & USE_EXTERNAL_APPS or not own_app_only)
    return 0 if may_speak else EPHEMERAL
