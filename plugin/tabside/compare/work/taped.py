"""What is under tape: the end of a wire, or a place on a board or a part; and where the probes of a row go."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from tabside.prove.measurement import At, Measurement, RowKind


class Taped(NamedTuple):
    """The end of a wire, or a place on a board or a part."""

    wire: str = ""
    reference: str = ""
    contact: str = ""
    is_cold: bool = False  # the plan says itself when it is soldered


def touched_by(row: Measurement) -> Iterator[Taped]:
    """Where its probes go."""
    if row.kind is RowKind.LOOK:
        return
    for end in row.ends:
        if end.at is At.CONTACT:
            yield Taped(reference=end.termination, contact=end.contact)
        elif end.at is At.BARE and end.lead:
            yield Taped(wire=end.lead)
            yield Taped(wire=end.lead, is_cold=True)
