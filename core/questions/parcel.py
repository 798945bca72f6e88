"""What a parcel of candles weighs, what its size counts as, and which of the two is charged."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from core.answer import Answer, Missing, Need, Origin, line
from core.book import Book
from core.compounds import Packs, VesselName
from core.errors import NotFound, OutOfRange
from core.question import Question, slot
from core.questions.checks import above_zero, few_pieces
from core.questions.parcel_answer import common_table, packing_of, sized, weighed
from core.questions.parcel_limit import one_of_the_whole, packing_of_the_whole
from core.questions.parcel_sums import Box, DivisorUnit, Sides
from core.units import Length, Mass, Number

NEED_CANDLE = Need(
    "weight_of_candle",
    line("the weight of one whole candle"),
    line("Put one on the scale as it will travel; or give the vessel, the fill and the lid one by one."),
)
NEED_VESSEL = Need(
    "weight_of_vessel",
    line("the weight of the empty vessel"),
    line("Weigh an empty one, or give the weight of one whole candle instead."),
)
NEED_FILL = Need(
    "weight_of_fill", line("the weight of wax and fragrance in one"), line("Weigh it filled, less the empty one.")
)
NEED_DIVISOR = Need(
    "divisor", line("the carrier's divisor, such as 5000 cm³ per kg"), line("It stands in the carrier's price list.")
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ParcelQuestion(Question):
    """The weight of a parcel of candles, and the weight charged for its size."""

    command: ClassVar[str] = "parcel"

    vessel: Mass | None = slot("One empty vessel, by weight", example="9 oz")
    jar: VesselName | None = slot("Instead: the name of a recorded vessel", example="amber tin")
    fill: Mass | None = slot("The wax and fragrance in one, by weight", example="8 oz")
    lid: Mass | None = slot("One lid, by weight", example="1.2 oz")
    candle: Mass | None = slot("Instead: one whole candle with its vessel, by weight", example="18 oz")
    count: int | None = slot("How many candles go in", example="4")
    packing: Mass | None = slot("All the packing in the parcel, by weight", example="14 oz")
    box: Mass | None = slot("The empty box, by weight", example="350 g")
    extra: Mass | None = slot("Anything else in the parcel, by weight", example="20 g")
    length: Length | None = slot("The box's length, outside", example="30 cm")
    width: Length | None = slot("The box's width, outside", example="25 cm")
    height: Length | None = slot("The box's height, outside", example="20 cm")
    divisor: Number | None = slot("The carrier's divisor for the size", example="5000")
    divisor_unit: DivisorUnit | None = slot("What the divisor is in")
    sides: Sides | None = slot("How the carrier rounds the sides")
    rounding: Mass | None = slot("The carrier charges up to the next ...", example="1 lb")
    limit: Mass | None = slot("The most the parcel may weigh; without a count: how many fit", example="2 kg")
    prices: Packs | None = slot("What the carrier charges up to each weight", example="2 kg 5.49 eur, 5 kg 9.99 eur")
    whole: Mass | None = slot("Instead: what the whole parcel weighs, to find one candle", example="3.1 kg")

    @property
    def intent(self) -> str:
        """Always the same."""
        return "parcel_weight"

    def answer(self, book: Book) -> Answer:
        """Worked for the weights of a candle, the size with a divisor, or both; Missing otherwise."""
        if self.jar:
            answer = self._with_jar(self.jar, book).answer(book)
            own = {what for what in ("vessel", "fill") if getattr(self, what) is None}
            given = tuple(replace(g, origin=Origin.RECORDED) if g.what in own else g for g in answer.given)
            return replace(answer, given=given)
        self._refuse_the_impossible()
        box = self._box()
        if self.whole is not None and self.candle is None and self.fill is None:
            return one_of_the_whole(self, self.whole, packing_of(self)) if self.count is not None else self._uncounted()
        if self.whole is not None and self.candle is not None and self.count and packing_of(self) is None:
            return packing_of_the_whole(self, self.whole, self.candle, self.count)
        if self.candle is not None or (self.fill is not None and self.vessel is not None):
            return weighed(self, box)
        if box is not None and not self._has_weights():
            return sized(self, box, self.divisor) if self.divisor is not None else self._missing_divisor(box)
        return self._missing_weight()

    def _with_jar(self, jar: VesselName, book: Book) -> ParcelQuestion:
        """With the recorded weights where none are given. Raises NotFound for an unknown vessel or weight."""
        record = book.vessel(jar)
        if record is None:
            near = book.names("vessel", jar, 3)
            raise NotFound("vessel", jar, near, "Weigh an empty one, and give its weight.")
        vessel = self.vessel or record.weight
        if vessel is None:
            raise NotFound("weight of the vessel", jar, (), "Weigh an empty one, and give its weight.")
        return replace(self, jar=None, vessel=vessel, fill=self.fill or record.fill)

    def _has_weights(self) -> bool:
        return any(mass is not None for mass in (self.vessel, self.fill, self.lid, self.packing, self.box, self.extra))

    def _missing_weight(self) -> Missing:
        if self.vessel is None and self.fill is None:
            need, head = NEED_CANDLE, "I need what one candle weighs, with its vessel and lid."
        elif self.vessel is None:
            need, head = NEED_VESSEL, "What does one empty vessel weigh? It travels too."
        else:
            need, head = NEED_FILL, "What do the wax and fragrance in one weigh?"
        return Missing(intent=self.intent, headline=line(head), needs=(need,), question=self)

    def _uncounted(self) -> Missing:
        return Missing(
            intent=self.intent,
            headline=line("How many candles are in it?"),
            needs=(Need("count", line("how many candles are in the parcel")),),
            question=self,
        )

    def _missing_divisor(self, box: Box) -> Missing:
        return Missing(
            intent=self.intent,
            headline=line("I need your carrier's divisor: it turns the size into a weight."),
            needs=(NEED_DIVISOR,),
            table=common_table(box, self.sides or Sides.EXACT),
            question=self,
        )

    def _box(self) -> Box | None:
        """The box, where all three sides are given."""
        if self.length is None or self.width is None or self.height is None:
            if any(side is not None for side in (self.length, self.width, self.height)):
                raise OutOfRange("size", "A box has three sides: give length, width and height.")
            return None
        return Box(self.length, self.width, self.height)

    def _refuse_the_impossible(self) -> None:
        above_zero(
            weight_of_the_vessel=self.vessel,
            weight_of_the_fill=self.fill,
            weight_of_the_candle=self.candle,
            length=self.length,
            width=self.width,
            height=self.height,
            divisor=self.divisor,
            rounding=self.rounding,
            limit=self.limit,
            weight_of_the_parcel=self.whole,
        )
        for mass in (self.lid, self.packing, self.box, self.extra):
            if mass is not None and mass.base < 0:
                raise OutOfRange(str(mass.base), "A weight can't be less than nothing. Check the minus sign.")
        if self.count is not None:
            few_pieces(self.count)
