"""One kind of part, and how many of it are needed more, or become free."""

from __future__ import annotations

from collections import Counter
from typing import NamedTuple

from tabside.facts import families
from tabside.make.buy.purchase import NOT_KNOWN, PIECES, Purchase
from tabside.model.natural import natural


class Thing(NamedTuple):
    """One kind of part, in words and by what tells it from others; None is "not known", or does not apply."""

    words: str
    unit: str = PIECES
    part_number: str | None = None
    family: str | None = None
    ways: int | None = None
    gauge_awg: int | None = None
    colour: str | None = None
    length_mm: float | None = None  # of each; of one that is bought the least that will do

    @property
    def item(self) -> str:
        return self.words if self.unit == PIECES else f"{self.words}, {self.unit}"


class Need(NamedTuple):
    """How many more of a kind of part the new build needs, or, below zero, how many become free."""

    thing: Thing
    more: int
    to_buy: int | None = None  # of those needed, what the stock does not have
    note: str = ""

    @property
    def item(self) -> str:
        return self.thing.item


def by_name(thing: Thing) -> tuple[object, ...]:
    return (natural(thing.item), thing.length_mm or 0.0)


def thing_of(line: Purchase) -> Thing:
    family = families.family(line.family).title if line.family else None
    ways = f"{line.ways}-way" if isinstance(line.ways, int) else line.ways
    gauge = f"{line.gauge_awg} AWG" if isinstance(line.gauge_awg, int) else line.gauge_awg
    said = (line.item, line.part_number, family, ways, gauge, line.colour)
    words = " ".join(str(text) for text in said if text not in (None, "", "not known", "always"))
    return Thing(
        words,
        line.unit,
        line.part_number if line.part_number not in ("", NOT_KNOWN) else None,
        line.family or None,
        line.ways if isinstance(line.ways, int) else None,
        line.gauge_awg if isinstance(line.gauge_awg, int) else None,
        line.colour or None,
        line.length_mm,
    )


class Tally:
    """What the new build needs more, counted thing by thing; below zero what it needs no longer."""

    def __init__(self) -> None:
        self.more: Counter[Thing] = Counter()
        self.in_stock: Counter[Thing] = Counter()  # of these
        self.notes: dict[Thing, str] = {}

    def needs(self, free: Counter[Thing]) -> tuple[Need, ...]:
        """First what is needed, then what becomes free: by the tally, then `free`, what hands take out."""
        things = sorted(self.more, key=by_name)
        needed = [thing for thing in things if self.more[thing] > 0]
        return (
            *(Need(thing, self.more[thing], self._to_buy(thing), self.notes.get(thing, "")) for thing in needed),
            *(Need(thing, self.more[thing]) for thing in things if self.more[thing] < 0),
            *(Need(thing, -free[thing]) for thing in sorted(free, key=by_name)),
        )

    def _to_buy(self, thing: Thing) -> int:
        return self.more[thing] - self.in_stock[thing]
