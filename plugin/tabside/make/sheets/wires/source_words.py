"""What a lead is made of, in words."""

from __future__ import annotations

from collections.abc import Sequence

from tabside.facts import families
from tabside.make.options.activities import BuyTails, BuyWhole, CutLead, CutWire, UseWhole
from tabside.make.solve.handing_out import LeadSource
from tabside.model.craft import Craft
from tabside.model.stock import StockLead


def source_words(source: LeadSource, craft: Craft) -> str:
    """What a lead is made of, as a part of a sentence."""
    is_cut = not source.is_whole and source.piece is not None and isinstance(source.piece.cut, CutLead | BuyTails)
    return f"{'a ' if is_cut else ''}{source_item(source, craft)}"


def source_item(source: LeadSource, craft: Craft) -> str:
    """The same in words that tell one piece in the drawer from another."""
    where = "bought" if source.bought else "from stock"
    match source.finish:
        case UseWhole(entry):
            return f"pre-crimped lead ({_piece_words(craft.settings.stock_leads[entry])}, {where}), used whole"
        case BuyWhole(want):
            return f"pre-crimped lead ({_both_ends(want.plugs)}, bought), used whole"
    match source.piece.cut if source.piece is not None else None:
        case CutLead(entry):
            return f"pre-crimped lead ({_piece_words(craft.settings.stock_leads[entry])}, {where})"
        case BuyTails(tails):
            return f"pre-crimped lead ({_both_ends((tails[0].family,) * 2)}, bought)"
        case CutWire(entry):
            wire = craft.settings.stock_wire[entry]
            over = f", {wire.od_mm:g} mm over the insulation" if wire.od_mm is not None else ""
            return f"wire ({wire.gauge_awg} AWG{_colour(wire.colour)}{over}, {where})"
        case _:
            return "wire (bought)"


def _piece_words(piece: StockLead) -> str:
    gauge = f", {piece.gauge_awg} AWG" if piece.gauge_awg is not None else ""
    return f"{_both_ends(piece.ends)}, {piece.length_mm:g} mm{gauge}{_colour(piece.colour)}"


def _both_ends(ends: Sequence[str]) -> str:
    """ "JST GH both ends", "JST SH to JST GH", "JST SH one end"."""
    titles = [families.family(family).title for family in ends]
    if len(titles) == 1:
        return f"{titles[0]} one end"
    return f"{titles[0]} both ends" if len(set(titles)) == 1 else " to ".join(titles)


def _colour(colour: str | None) -> str:
    return f", {colour}" if colour else ""
