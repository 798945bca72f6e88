"""Messages in channels, and the direct conversations they may be in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from tests.standin.breach import error_body, wrong
from tests.standin.callbacks import as_edited
from tests.standin.faults import ApiError, refused
from tests.standin.ledger import Ledger, Sent
from tests.standin.message import Message, new_message
from tests.standin.world import Json

Answer = tuple[int, Any]


@dataclass(slots=True)
class Channels:
    ledger: Ledger

    def post(self, sent: Sent) -> Answer:
        """POST /channels/ID/messages."""
        channel_id = self._open(sent)
        self.ledger.examine("message", sent.body, sent)
        self.ledger.examine_mentions(sent.body, sent)
        reference = sent.body.get("message_reference")
        more: Json = {}
        if reference:
            target = self.ledger.messages.get(int(reference["message_id"]))
            if target is not None and not target.deleted:
                more = {"message_reference": reference, "referenced_message": target.payload}
            elif reference.get("fail_if_not_exists", True):
                raise ApiError(400, error_body([wrong(("message_reference",), "Unknown message")]))
        message = new_message(self.ledger.bot, channel_id, sent.body.get("flags") or 0, 19 if more else 0, **more)
        server = self.ledger.places[channel_id]
        if server is not None:
            message.payload["guild_id"] = str(server.id)
        message.apply(sent.body, sent.files, self.ledger.base)
        self.ledger.messages[message.id] = message
        heard = self.ledger.heard.get(int(reference["message_id"]) if reference else channel_id)
        if heard is not None:
            heard.messages.append(message)
            heard.mark(answered=True)
        self.ledger.echo("MESSAGE_CREATE", message.payload)
        return 200, message.payload

    def edit(self, sent: Sent) -> Answer:
        """PATCH /channels/ID/messages/ID."""
        message = self._own(sent)
        self.ledger.examine("edit", as_edited(message, sent.body), sent)
        self.ledger.examine_mentions(sent.body, sent)
        message.apply(sent.body, sent.files, self.ledger.base)
        self.ledger.echo("MESSAGE_UPDATE", message.payload)
        return 200, message.payload

    def delete(self, sent: Sent) -> Answer:
        self._own(sent).deleted = True
        return 204, None

    def fetch(self, sent: Sent) -> Answer:
        return 200, self._message(sent).payload

    def typing(self, sent: Sent) -> Answer:
        self._open(sent)
        return 204, None

    def get(self, sent: Sent) -> Answer:
        """GET /channels/ID."""
        channel_id = self._open(sent)
        return 200, self.ledger.channels[channel_id].json(self.ledger.places[channel_id])

    def open_direct(self, sent: Sent) -> Answer:
        """POST /users/@me/channels."""
        person = self.ledger.people.get(int(sent.body["recipient_id"]))
        if person is None:
            raise refused(10013)
        return 200, self.ledger.direct_channel(person).json()

    def _open(self, sent: Sent) -> int:
        channel_id = int(sent.match["channel"])
        if channel_id in self.ledger.denied:
            raise refused(self.ledger.denied[channel_id])
        if channel_id not in self.ledger.channels:
            raise refused(10003)
        return channel_id

    def _message(self, sent: Sent) -> Message:
        self._open(sent)
        message = self.ledger.messages.get(int(sent.match["message"]))
        # a message only its asker sees does not exist for the channel routes
        if message is None or message.deleted or message.ephemeral:
            raise refused(10008)
        return message

    def _own(self, sent: Sent) -> Message:
        message = self._message(sent)
        if message.payload["author"]["id"] != str(self.ledger.bot.id):
            raise refused(50005)
        return message
