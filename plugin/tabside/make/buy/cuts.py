"""The pieces of wire to cut.

The cut length is the lead's length (from contact to contact, the service loop included where the length was worked out
from positions) and what `allowances` adds for the ends.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from operator import attrgetter

from msgspec import Struct

NEW_WIRE = "new wire"


class CutPiece(Struct, frozen=True):
    """One piece to cut, for one lead."""

    lead: str  # its mark
    gauge_awg: int | None  # None: not known
    colour: str | None  # None: not stated
    cut_length_mm: float | None  # allowance included; None: not known
    allowance_mm: float  # for the ends that are made here
    strip_from: str  # "1.5", "1.3 to 1.8", "not known", "none" for an insulation-displacement plug; mm
    strip_to: str
    taken_from: str  # "new wire", or a piece of the stock
    offcut_mm: float | None  # what remains of a piece of the stock; None for new wire


class CutGroup(Struct, frozen=True):
    """The pieces of one gauge and colour from new wire or stock."""

    gauge_awg: int | None
    colour: str | None
    pieces: tuple[CutPiece, ...]
    total_mm: float | None  # the sum of all lengths that are known; None when none is
    not_known: int  # pieces whose length is not in the total


def in_cutting_order(pieces: Iterable[CutPiece]) -> tuple[CutPiece, ...]:
    """By gauge, the thickest first, then colour, then the longest first; equal pieces keep their order."""
    return tuple(sorted(pieces, key=lambda piece: (_group_order(piece), _longest_first(piece))))


def cut_groups(pieces: Iterable[CutPiece]) -> tuple[CutGroup, ...]:
    """The pieces gathered by gauge and colour, in their order."""
    groups: dict[tuple[int | None, str | None], list[CutPiece]] = {}
    for piece in pieces:
        groups.setdefault(attrgetter("gauge_awg", "colour")(piece), []).append(piece)
    return tuple(_group(gauge, colour, tuple(found)) for (gauge, colour), found in groups.items())


def _group(gauge_awg: int | None, colour: str | None, pieces: tuple[CutPiece, ...]) -> CutGroup:
    known = [piece.cut_length_mm for piece in pieces if piece.cut_length_mm is not None]
    return CutGroup(gauge_awg, colour, pieces, math.fsum(known) if known else None, len(pieces) - len(known))


def _group_order(piece: CutPiece) -> Sequence[object]:
    unknown_last = (piece.gauge_awg is None, piece.gauge_awg or 0)
    return (*unknown_last, piece.colour is None, piece.colour or "")


def _longest_first(piece: CutPiece) -> tuple[bool, float]:
    return (piece.cut_length_mm is None, -(piece.cut_length_mm or 0.0))
