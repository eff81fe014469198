"""The kinds of current limiter, and what each of them shows.

A smoke stopper goes between a pack and the craft. A bench supply stands in place of the pack: the two never meet.
"""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

from tabside.words.cautions import SUPPLY_LIMIT

NEVER = "A bench supply is never connected to a pack."

_DARK = ("dark, or lights for a moment and goes out", "below its limit, or at it for a moment")
_LOADED = (
    "dark, or glows a little while {} draws current, not brightly",
    "below its limit, no more than {} draws by its maker's sheet",
)
_TURNING = ("may glow while it turns, not brightly", "below its limit, or at it for a moment as the motor starts")
_BELOW = "Below its limit: its amperes show less, and its limit light (C.C.), if it has one, is off."


class Limiter(Struct, frozen=True):
    """Which kinds the craft allows."""

    smoke_stopper: bool = True
    bench_supply: bool = False
    out: str = ""  # how a pack without a plug is out
    into: tuple[str, ...] = ()  # what the lead of a bench supply, or a smoke stopper's output, plugs into

    def nothing(self) -> str:
        """While nothing is on its output."""
        return self._each("dark", "0 A")

    def dark(self) -> str:
        return self._each(*_DARK)

    def loaded(self, loads: Iterable[str]) -> str:
        """While lamps and the like are on."""
        named = " or ".join(loads)
        return self._each(*(words.format(named) for words in _LOADED)) if named else self.dark()

    def turning(self) -> str:
        return self._each(*_TURNING)

    def kinds(self) -> str:
        """What counts as limited power on the sheet."""
        stopper = "a smoke stopper in the pack's lead, between pack and craft"
        supply = f"a bench supply, its limit at {SUPPLY_LIMIT} (common practice, no source)"
        if not self.bench_supply:
            out = f" All power out: {self.out}, USB out." if self.out else ""
            return f"Limited power: {stopper}. No bench supply: the pack itself stays. {NEVER}{out}"
        higher = f"Higher only by what the boards that are on take by their makers' sheets. {_BELOW}"
        if not self.smoke_stopper:
            return f"Limited power: {supply}. {higher}"
        return (
            f"Limited power: EITHER the pack through a smoke stopper in its lead, OR {supply}, in place of the pack, "
            f"which stays away all the time. {NEVER} {higher}"
        )

    def needed(self) -> str:
        """What must lie on the bench."""
        lead = f", with a lead that plugs into {', '.join(self.into)}" if self.into else ""
        supply = f"a bench supply that can be limited to {SUPPLY_LIMIT}{lead}"
        stopper = "a smoke stopper in the pack's lead"
        if not self.bench_supply:
            return f"{stopper}; no bench supply"
        return f"EITHER {stopper}, OR, in place of the pack, {supply}" if self.smoke_stopper else supply

    def _each(self, stopper: str, supply: str) -> str:
        said = [f"smoke stopper: {stopper}"] if self.smoke_stopper else []
        return "; ".join([*said, f"bench supply: {supply}"] if self.bench_supply else said)
