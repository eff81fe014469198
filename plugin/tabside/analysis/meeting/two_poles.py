"""Parts of two poles, resistors above all: on the nets, or drawn into a line."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from tabside.analysis.joined.joints import letters_of
from tabside.model.craft import Craft


class TwoPole(Struct, frozen=True):
    reference: str
    value: str
    nets: tuple[int, int]


def two_poles(craft: Craft, *letters: str) -> Iterator[TwoPole]:
    """The fitted parts of two pins whose reference has these letters."""
    for part in craft.parts:
        if letters_of(part.reference) in letters and len(part.pins) == 2 and not part.dnp:
            yield TwoPole(part.reference, part.value, (part.pins[0].net_id, part.pins[1].net_id))
    for termination in craft.terminations.values():
        if letters_of(termination.reference) in letters and len(termination.contacts) == 2:
            a, b = termination.contacts
            yield TwoPole(termination.reference, termination.value, (a.net_id, b.net_id))
