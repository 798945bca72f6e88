"""Recording a vessel: the room in it, what it takes, what it weighs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.actions.materials import taken_back
from core.actions.recording import Recording, Scene
from core.answer import Answer, Missing, Need, line
from core.book import Book, VesselRecord
from core.compounds import VesselName, Words
from core.library import records, vessels
from core.library.names import prose
from core.question import slot
from core.questions.checks import above_zero, refuse_overfull
from core.units import Mass, Volume

NEED_NAME = Need("vessel", line("what you call it"), line("Such as “amber tin” or “tumbler”."))
NEED_SIZE = Need(
    "size",
    line("its room, or the weight it takes"),
    line("Weigh it empty, fill it with water to the line and ask “vessel”; or weigh a candle poured in it."),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordVessel(Recording):
    """Record a vessel by name, to use it in batches."""

    command: ClassVar[str] = "record_vessel"

    vessel: VesselName | None = slot("What you call it", example="amber tin", required=True)
    room: Volume | None = slot("The room up to the fill line", example="250 ml")
    fill: Mass | None = slot("What goes into it: wax and fragrance together, by weight", example="200 g")
    weight: Mass | None = slot("What it weighs empty", example="180 g")
    how: Words | None = slot("How you know", example="weighed with water")

    def lacking(self, book: Book) -> Answer | None:
        """A name and at least one figure."""
        above_zero(room=self.room, fill=self.fill, weight=self.weight)
        sized = any(value is not None for value in (self.room, self.fill, self.weight))
        needs = tuple(need for need, there in ((NEED_NAME, bool(self.vessel)), (NEED_SIZE, sized)) if not there)
        if not needs:
            return None
        head = line("I need a name for the vessel, and its room or the weight it takes.")
        return Missing(intent=self.command, headline=head, needs=needs)

    def write(self, scene: Scene) -> Answer:
        """Keep what was said beside what is known already."""
        assert self.vessel
        before = records.current(scene.db, (scene.space,), scene.user, vessels.KIND, self.vessel)
        there = vessels.from_data(before) if before is not None else VesselRecord(self.vessel)
        refuse_overfull(self.fill or there.fill, self.room or there.room)
        kept = vessels.record(
            scene.db, scene.space, self.vessel, self.room, self.fill, self.weight, prose(self.how or ""), scene.stamp
        )
        facts = [
            line(words, value)
            for words, value in (
                ("Room: {}.", kept.room),
                ("It takes {} of wax and fragrance.", kept.fill),
                ("Empty it weighs {}.", kept.weight),
            )
            if value is not None
        ]
        return self.said(line("Recorded: the vessel {}.", kept.name), *facts, taken_back())
