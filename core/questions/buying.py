"""Which packs to buy to cover a need, and what they cost by weight and by candle."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from core.answer import Answer, Need, line
from core.answer import Missing as MissingAnswer
from core.book import Book
from core.compounds import Material, Pack, Packs, Stuff
from core.errors import Contradiction, OutOfRange
from core.question import Question, slot
from core.questions.buying_answer import bought, density_missing
from core.questions.buying_budget import afforded, loosely, weighed_out
from core.questions.buying_compare import compared
from core.questions.buying_need import Wanted, nothing_to_buy, wanted
from core.questions.buying_postage import with_postage
from core.questions.buying_sums import Offer, in_base, price_by_weight
from core.questions.checks import above_zero, few_pieces
from core.questions.known_density import Known, known_density
from core.questions.money import one_currency
from core.units import Density, Mass, Money, Number, Percent, Quantity, Volume

MOST_SIZES = 24

NEED_PACKS = Need("pack_size", line("the pack sizes, with their prices if you like"), line("Such as “2 kg 18 eur”."))
HOW_MUCH = line("By weight, such as “9 kg”, or in pieces, such as “120 wicks”.")
# What is bought in bags and slabs by weight is wax, unless something else is said.
AMOUNT_OF = {
    Stuff.WAX: "weight_of_wax",
    Stuff.FRAGRANCE: "weight_of_fragrance",
    Stuff.DYE: "amount_needed",
    Stuff.OTHER: "amount_needed",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyingQuestion(Question):
    """The cheapest packs that cover what you need, what is left over, and the cost per gram and candle."""

    command: ClassVar[str] = "buy"

    need: Mass | Volume | None = slot("How much you need", example="9 kg")
    pieces: Number | None = slot("How many pieces you need, of wicks, jars or lids", example="120")
    packs: Packs | None = slot("The packs on sale, each with its price if known", example="2 kg 18 eur, 5 kg 39 eur")
    candle: Mass | None = slot("How much of it goes into one candle", example="180 g")
    count: int | None = slot("Instead: for how many candles (or days, at so much each)", example="24")
    extra: Percent | None = slot("How much more, to be safe", example="10%")
    have: Mass | Volume | None = slot("How much of it you have already", example="900 g")
    loose: Packs | None = slot("A price by weight, where any amount is sold", example="1 kg 6 eur")
    off: Percent | None = slot("A discount on the prices", example="10%")
    budget: Money | None = slot("What you can spend", example="60 eur")
    postage: Money | None = slot("Postage or delivery, paid once", example="5 eur")
    density: Density | None = slot("Its density, where packs are sold by volume", example="0.95 g/ml")
    material: Material | None = slot("Its name: a recorded or a published material", example="paraffin")
    stuff: Stuff | None = slot("Is it wax, fragrance oil or something else?")

    @property
    def intent(self) -> str:
        """Always the same."""
        return "purchase"

    def answer(self, book: Book) -> Answer:
        """Worked for a need and packs, or for priced packs to be compared; Missing without them or a density."""
        return with_postage(self._answer(book), self.postage)

    def _answer(self, book: Book) -> Answer:
        self._refuse_the_impossible()
        want = wanted(self)
        if want is not None and want.amount.base <= 0:
            return nothing_to_buy(self, want)
        packs = self._on_sale()
        currency = self._currency(packs, book)
        if not packs:
            return self._by_weight(want, currency) or self._missing(packs)
        known = known_density(self.density, self.material, book)
        kind = type(want.amount) if want is not None else self._common_kind(packs, known)
        if known is None and {type(pack.size) for pack in packs} | {kind} >= {Mass, Volume}:
            return density_missing(self, packs, want.amount if want is not None else None, book)
        offers = [self._offer(pack, kind, known, currency) for pack in packs]
        if want is not None:
            return bought(self, want, offers, known)
        priced = [offer for offer in offers if offer.price is not None]
        if priced and self.budget is not None:
            return afforded(self, Money(self.budget.base, currency), priced, kind)
        if priced:
            return compared(self, priced, kind, known)
        return self._missing(packs)

    def _on_sale(self) -> tuple[Pack, ...]:
        """The packs at what they cost now: less the discount, by the price by weight where they have none."""
        packs = self.packs.items if self.packs is not None else ()
        loose = self._loose()
        if loose is not None:
            packs = tuple(_priced_by_weight(pack, *loose) for pack in packs)
        if self.off is None:
            return packs
        return tuple(
            replace(pack, price=pack.price * (1 - self.off.fraction)) if pack.price is not None else pack
            for pack in packs
        )

    def _loose(self) -> tuple[Mass, Money] | None:
        """The price by weight, and for how much."""
        first = self.loose.items[0] if self.loose is not None and self.loose.items else None
        if first is None or first.price is None:
            return None
        return (first.size, first.price) if isinstance(first.size, Mass) else None

    def _by_weight(self, want: Wanted | None, currency: str) -> Answer | None:
        """At a price by weight, without packs: what the need costs, or what the money buys."""
        loose = self._loose()
        if loose is None:
            return None
        of, price = loose
        price = Money(price.base * (1 - self.off.fraction) if self.off is not None else price.base, currency)
        if want is not None and isinstance(want.amount, Mass):
            return loosely(self, want, price, of)
        if self.budget is not None and want is None:
            return weighed_out(self, Money(self.budget.base, currency), price, of)
        return None

    def _common_kind(self, packs: tuple[Pack, ...], known: Known | None) -> type[Quantity]:
        """The kind packs are compared in: weight wherever possible."""
        kinds = {type(pack.size) for pack in packs}
        return Mass if Mass in kinds or (Volume in kinds and known is not None) else kinds.pop()

    def _offer(self, pack: Pack, kind: type[Quantity], known: Known | None, currency: str) -> Offer:
        size = in_base(pack.size, kind, known.density if known is not None else None)
        if size is None:
            raise Contradiction(
                "packs",
                "Some of that is counted in pieces and some is weighed. Give the need and the packs the same way.",
            )
        price = Money(pack.price.base, currency) if pack.price is not None else None
        return Offer(pack, size, price)

    def _refuse_the_impossible(self) -> None:
        above_zero(need=self.need, pieces=self.pieces, candle=self.candle, budget=self.budget)
        whole_pieces(self.pieces)
        if self.need is not None and self.pieces is not None:
            raise Contradiction("pieces", "Do you need it by weight or in pieces? Leave one of the two out.")
        if self.count is not None:
            few_pieces(self.count)
        if self.have is not None and self.have.base < 0:
            raise OutOfRange(str(self.have.base)[:40], "You can't have less than nothing. Check the minus sign.")
        for what, percent in (("extra", self.extra), ("off", self.off)):
            if percent is not None and not 0 <= percent.base < 100:
                raise OutOfRange(what, "The extra and the discount must lie between 0 % and 100 %, such as 10 %.")
        packs = (*(self.packs.items if self.packs else ()), *(self.loose.items if self.loose else ()))
        if len(packs) > MOST_SIZES:
            raise OutOfRange(str(len(packs)), f"I compare up to {MOST_SIZES} pack sizes at a time. Leave some out.")
        for pack in packs:
            above_zero(size_of_a_pack=pack.size)
            whole_pieces(pack.size)
        if self.loose is not None and (len(self.loose.items) != 1 or self._loose() is None):
            raise Contradiction("loose", "A price by weight needs one weight and its price, such as 1 kg 6 eur.")
        if self.budget is not None:
            above_zero(price=next((p.price for p in packs if p.price is not None and p.price.base <= 0), None))

    def _currency(self, packs: tuple[Pack, ...], book: Book) -> str:
        """The one currency of the prices."""
        prices = [pack.price for pack in (*packs, *(self.loose.items if self.loose else ())) if pack.price is not None]
        money = [*prices, *((self.budget,) if self.budget is not None else ())]
        return one_currency(money, book.preferences.currency)

    def _missing(self, packs: tuple[Pack, ...]) -> MissingAnswer:
        """The amount, the packs or both are lacking."""
        needs: list[Need] = []
        if self.need is None and self.pieces is None:
            weighed = any(isinstance(pack.size, Mass) for pack in packs)
            stuff = self.stuff or (Stuff.WAX if weighed else Stuff.OTHER)
            needs.append(Need(AMOUNT_OF[stuff], line("how much you need"), HOW_MUCH))
        if not packs:
            needs.append(NEED_PACKS)
        if len(needs) == 2:
            head = "I need two things: how much you need, and which packs there are."
        else:
            head = "How much of it do you need?" if packs else "Which packs can you buy? I need their sizes."
        return MissingAnswer(intent=self.intent, headline=line(head), needs=tuple(needs), question=self)


def _priced_by_weight(pack: Pack, of: Mass, price: Money) -> Pack:
    """The pack at a price by weight, where it has none of its own."""
    if pack.price is not None or not isinstance(pack.size, Mass):
        return pack
    return replace(pack, price=price_by_weight(pack.size, of, price))


def whole_pieces(amount: Quantity | None) -> None:
    """Raise OutOfRange for half a wick."""
    if isinstance(amount, Number) and amount.base != amount.base.to_integral_value():
        raise OutOfRange(
            str(amount.base)[:40], "Pieces come whole: give a count such as 120, or a weight such as 9 kg."
        )
