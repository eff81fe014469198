"""Which pieces are cut for the leads of a plan, and what each comes from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from tabside.analysis.joined.lead_ends import EndKind, MadeLead, WireFrom
from tabside.make.buy.cuts import NEW_WIRE, CutPiece, in_cutting_order
from tabside.make.buy.stock_use import FromStock
from tabside.make.needs.crimping import strip_text
from tabside.make.options.activities import BuyTails, CutLead
from tabside.make.sheets.wires.source_words import source_words
from tabside.make.sheets.wires.stock_cuts import StockCut
from tabside.make.solve.choice import CraftChoice
from tabside.make.solve.handing_out import LeadSource
from tabside.make.solve.lead_methods import crimped_ends
from tabside.model.craft import Craft
from tabside.model.stock import Cutting


def taken_from(craft: Craft, choices: CraftChoice) -> dict[str, FromStock]:
    """What leads come from that are not cut from new wire: ready-made cables, pre-crimped leads, tails of these."""
    taken: dict[str, FromStock] = {}
    for choice in choices.cables:
        if choice.ready is not None:
            n = choice.ready.stock
            cable = None if n is None else craft.settings.stock_cables[n]
            text = "ready-made straight cable, bought" if cable is None else f"{cable.name}, from stock"
            for made in choice.job.leads:
                taken[made.lead.mark] = FromStock(
                    text, None if cable is None else cable.length_mm, cut=False, cable=cable
                )
        for mark, source in choice.sources.items():
            text = source_words(source, craft)
            if source.is_whole:
                taken[mark] = FromStock(text, None, cut=False)
            elif source.piece is not None and isinstance(source.piece.cut, CutLead):
                taken[mark] = FromStock(text, craft.settings.stock_leads[source.piece.cut.entry].length_mm, cut=True)
            elif source.piece is not None and isinstance(source.piece.cut, BuyTails):
                taken[mark] = FromStock(text, None, cut=True)
    return taken


def cut_pieces(
    leads: tuple[MadeLead, ...],
    taken: Mapping[str, FromStock],
    cut_from: Iterable[StockCut],
    choices: CraftChoice,
    colours: Mapping[str, str | None],
    cutting: Cutting,
) -> tuple[CutPiece, ...]:
    """Pieces to cut: of leads that come neither with a ready-made cable nor as whole pre-crimped ones.

    What is left of a piece stands with the last lead that is cut from it.
    """
    left = {cut.pieces[-1][0]: cut.offcut_mm for cut in cut_from}
    words = {mark: cut.item for cut in cut_from for mark, _ in cut.pieces}
    pieces = []
    sources = dict(choices.sources())
    not_made = {made.lead.mark for choice in choices.cables if choice.stopped for made in choice.job.leads}
    for made in leads:  # in mark order
        mark = made.lead.mark
        from_stock = taken.get(mark)
        if made.wire_from is WireFrom.NEW and mark not in not_made and (from_stock is None or from_stock.cut):
            strips = _strips(made, sources.get(mark), cutting)
            pieces.append(
                CutPiece(
                    lead=mark,
                    gauge_awg=made.lead.gauge_awg,
                    colour=colours[mark],
                    cut_length_mm=choices.cut_mm[mark],
                    allowance_mm=choices.allowance_mm[mark],
                    strip_from=strips[0],
                    strip_to=strips[1],
                    taken_from=from_stock.text if from_stock is not None else words.get(mark, NEW_WIRE),
                    offcut_mm=left.get(mark, 0.0) if mark in words else None,
                )
            )
    return in_cutting_order(pieces)


def _strips(made: MadeLead, source: LeadSource | None, cutting: Cutting) -> tuple[str, str]:
    """How far to strip each end, in mm; an end that has its contact already is not stripped."""
    crimped = crimped_ends(made, source)
    first, second = (
        "none"
        if end.kind is EndKind.SLOT or (end.kind is EndKind.CONTACT and end not in crimped)
        else strip_text(end, made.lead.gauge_awg, cutting)
        for end in made.ends
    )
    return first, second
