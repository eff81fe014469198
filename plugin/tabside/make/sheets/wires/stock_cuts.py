"""How each pre-crimped lead and each piece of wire is cut up."""

from __future__ import annotations

import math
from collections.abc import Hashable

from msgspec import Struct

from tabside.make.options.activities import BuyWire, CutWire
from tabside.make.sheets.wires.source_words import source_item
from tabside.make.solve.choice import CraftChoice
from tabside.make.solve.handing_out import Piece
from tabside.model.craft import Craft


class StockCut(Struct, frozen=True):
    """How one pre-crimped lead, or one piece of wire, is cut up."""

    item: str  # in words, with where it comes from
    length_mm: float | None  # None: bought at the length needed
    pieces: tuple[tuple[str, float | None], ...]  # (lead mark, cut length), in the order in which they are cut off
    offcut_mm: float | None


def stock_cuts(craft: Craft, choices: CraftChoice) -> tuple[StockCut, ...]:
    """In the order in which the leads are made; what is cut from newly bought wire stands in no list."""
    marks: dict[Hashable, list[str]] = {}
    items: dict[Hashable, tuple[str, float | None]] = {}
    for mark, source in choices.sources():
        if source.piece is None or isinstance(source.piece.cut, BuyWire):
            continue
        piece = _one_piece(source.piece)
        entry = source.entry(craft.settings)
        marks.setdefault(piece, []).append(mark)
        items[piece] = (source_item(source, craft), entry.length_mm if entry else None)
    return tuple(_stock_cut(items[piece], named, choices) for piece, named in marks.items())


def _one_piece(piece: Piece) -> Hashable:
    """A wire is one piece for all that is cut from it."""
    return (piece.cut.entry, piece.cut.piece) if isinstance(piece.cut, CutWire) else piece


def _stock_cut(item: tuple[str, float | None], marks: list[str], choices: CraftChoice) -> StockCut:
    pieces = tuple((mark, choices.cut_mm[mark]) for mark in marks)
    known = [length for _, length in pieces if length is not None]
    offcut = None if item[1] is None or len(known) < len(pieces) else item[1] - math.fsum(known)
    return StockCut(item[0], item[1], pieces, offcut)
