"""What a piece of work costs: minutes, money, risk."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from tabside.make.assignment import Activity
from tabside.make.options.activities import Deed
from tabside.make.options.things import Thing
from tabside.model.stock import Costs

PURCHASE = 0.1  # tie of buying anything once more: of what costs the same, the least is bought


class Work(Struct, frozen=True):
    """Minutes of work, money for parts, and weights that are neither (risk, slack), in money.

    `tie` is no cost: it decides only between choices that cost the same.
    """

    minutes: float = 0.0
    money: float = 0.0
    weight: float = 0.0
    tie: float = 0.0

    def __add__(self, other: Work) -> Work:
        return Work(
            self.minutes + other.minutes, self.money + other.money, self.weight + other.weight, self.tie + other.tie
        )

    def times(self, count: float) -> Work:
        return Work(self.minutes * count, self.money * count, self.weight * count, self.tie * count)

    def cost(self, costs: Costs) -> float:
        """What the choice is made by, in money."""
        return self.minutes * costs.minute + self.money + self.weight


class Making(Struct, frozen=True):
    """One activity with what it means."""

    activity: Activity[Deed, Thing]
    work: Work


def making(
    costs: Costs,
    deed: Deed,
    work: Work,
    takes: Mapping[Thing, float],
    makes: Mapping[Thing, float],
    most: int = 10_000,
) -> Making:
    return Making(Activity(deed, work.cost(costs), takes, makes, most, work.tie), work)
