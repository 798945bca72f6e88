"""Every action there is. Adding one means adding its class here; commands, help and JSON follow."""

from __future__ import annotations

from core.action import Action
from core.actions.forget import ForgetRecord, UndoDelete
from core.actions.formulas import LogTest, RecordFormula
from core.actions.materials import RecordDensity, RecordMaterial
from core.actions.settings import ChangeSettings, MyData
from core.actions.vessels import RecordVessel

ACTIONS: tuple[type[Action], ...] = (
    RecordDensity,
    RecordMaterial,
    RecordVessel,
    RecordFormula,
    LogTest,
    ForgetRecord,
    UndoDelete,
    ChangeSettings,
    MyData,
)

BY_COMMAND: dict[str, type[Action]] = {kind.command: kind for kind in ACTIONS}
