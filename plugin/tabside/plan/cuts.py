"""The pieces of wire to cut.

The cut length is the lead's length: from contact to contact, the service loop included where the length was worked
out from positions.  Nothing is added for stripping, crimping or mistakes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from operator import attrgetter

from ..facts import families
from ..model.craft import Craft
from .lead_ends import EndKind, LeadEnd, MadeLead, WireFrom
from .stock_use import StockUse

NEW_WIRE = "new wire"


@dataclass(frozen=True, slots=True)
class CutPiece:
    """One piece to cut, for one lead."""

    lead: str  # its mark
    gauge_awg: int | None  # None: not known
    colour: str | None  # None: not stated
    cut_length_mm: float | None  # None: not known
    strip_from: str  # "1.5", "1.3 to 1.8", "not known", "none" for an insulation-displacement plug; mm
    strip_to: str
    taken_from: str  # "new wire", or a piece of the stock
    offcut_mm: float | None  # what remains of a piece of the stock; None for new wire


@dataclass(frozen=True, slots=True)
class CutGroup:
    """The pieces of one gauge and colour from new wire or stock."""

    gauge_awg: int | None
    colour: str | None
    pieces: tuple[CutPiece, ...]
    total_mm: float | None  # the sum of all lengths that are known; None when none is
    not_known: int  # pieces whose length is not in the total


def plan_cuts(craft: Craft, stock: StockUse) -> tuple[CutPiece, ...]:
    """One piece for each lead that is cut: by gauge, the thickest first, then colour, then the longest first.

    Leads of a captive part, of a ready-made cable, and of stock that is used as it is are not cut.
    """
    pieces = [_piece(made, stock) for made in stock.leads if _is_cut(made, stock)]
    # The list is in mark order and sorting is stable, so that equal pieces stay in mark order.
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


def _is_cut(made: MadeLead, stock: StockUse) -> bool:
    taken = stock.taken.get(made.lead.mark)
    return made.wire_from is WireFrom.NEW and (taken is None or taken.cut)


def _piece(made: MadeLead, stock: StockUse) -> CutPiece:
    lead, taken = made.lead, stock.taken.get(made.lead.mark)
    offcut = None
    if taken is not None and taken.length_mm is not None and lead.length_mm is not None:
        offcut = taken.length_mm - lead.length_mm
    strips = [_strip(end, ready=taken is not None) for end in made.ends]
    return CutPiece(
        lead=lead.mark,
        gauge_awg=lead.gauge_awg,
        colour=lead.colour,
        cut_length_mm=lead.length_mm,
        strip_from=strips[0],
        strip_to=strips[1],
        taken_from=taken.text if taken is not None else NEW_WIRE,
        offcut_mm=offcut,
    )


def _strip(end: LeadEnd, *, ready: bool) -> str:
    """How far to strip an end, in mm; `ready`: the piece comes with its contact crimped on."""
    if end.kind is EndKind.SLOT:
        return "none"
    if end.kind is EndKind.CONTACT and ready:
        return "none"
    if end.family is None:
        return "not known"
    return families.family(end.family).strip_text


def _group_order(piece: CutPiece) -> Sequence[object]:
    unknown_last = (piece.gauge_awg is None, piece.gauge_awg or 0)
    return (*unknown_last, piece.colour is None, piece.colour or "")


def _longest_first(piece: CutPiece) -> tuple[bool, float]:
    return (piece.cut_length_mm is None, -(piece.cut_length_mm or 0.0))
