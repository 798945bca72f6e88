"""Every action there is. Adding one means adding its class here; commands, help and JSON follow."""

from __future__ import annotations

from core.action import Action

ACTIONS: tuple[type[Action], ...] = ()

BY_COMMAND: dict[str, type[Action]] = {kind.command: kind for kind in ACTIONS}
