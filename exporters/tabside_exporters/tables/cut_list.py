"""The cut list: every piece of wire to cut, gathered by gauge and colour."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis.joined.lead_ends import WireFrom
from tabside.documents.build import CraftBuild
from tabside.documents.document import Document, Totals
from tabside.documents.rows import CellKind, Column, Row
from tabside.facts.colours import colour_legend
from tabside.make.buy.cuts import NEW_WIRE, CutGroup, CutPiece, cut_groups
from tabside.make.needs.crimping import TO_FIT, cut_length_words
from tabside.words.lengths import tenths_up
from tabside_exporters.tables.legend import gauge_legend, length_legend

_GROUP = (
    Column("gauge_awg", "gauge of the conductor, AWG", CellKind.GAUGE),
    Column("colour", "IEC 60757 code, or as written in the drawing"),
)
COLUMNS = (
    *_GROUP,
    Column("cut_length_mm", "where to cut, before stripping, allowance included, mm", CellKind.TENTHS),
    Column("allowance_mm", "allowance included for making the ends, mm", CellKind.TENTHS),
    Column(
        "strip_from_mm",
        "bare conductor at the wire's first end, mm; not known: as the cup or pad takes; none: not stripped",
    ),
    Column("strip_to_mm", "bare conductor at its other end, mm"),
    Column("leads", "number of the wire that the piece is for"),
    Column("taken_from", "new wire, or a piece of the stock"),
    Column("offcut_mm", "what remains of a piece of the stock, mm", CellKind.TENTHS),
    Column("group_pieces", "pieces of this gauge and colour", CellKind.WHOLE, on_page=False),
    Column("group_total_mm", "sum of their known lengths, mm", CellKind.TENTHS, on_page=False),
    Column("group_not_known", "pieces of unknown length, not in the sum", CellKind.WHOLE, on_page=False),
)
_TOTALS = (
    *_GROUP,
    Column("pieces", "pieces to cut", CellKind.WHOLE),
    Column("total_mm", "sum of the known lengths, mm", CellKind.TENTHS),
    Column("not_known", "pieces of unknown length, not in the sum", CellKind.WHOLE),
)


def cut_list(build: CraftBuild) -> Iterator[Row]:
    """One row for each piece; each row repeats the sums of its gauge and colour."""
    groups = cut_groups(build.cuts)
    return (_row(piece, group) for group in groups for piece in group.pieces)


def cut_totals(build: CraftBuild) -> Iterator[Row]:
    """One row for each gauge and colour."""
    return (_total(group) for group in cut_groups(build.cuts))


def _row(piece: CutPiece, group: CutGroup) -> Row:
    return {
        "gauge_awg": piece.gauge_awg,
        "colour": piece.colour,
        "cut_length_mm": tenths_up(piece.cut_length_mm),
        "allowance_mm": tenths_up(piece.allowance_mm),
        "strip_from_mm": piece.strip_from,
        "strip_to_mm": piece.strip_to,
        "leads": piece.lead,
        "taken_from": piece.taken_from,
        "offcut_mm": "" if piece.taken_from == NEW_WIRE else tenths_up(piece.offcut_mm),
        "group_pieces": len(group.pieces),
        "group_total_mm": tenths_up(group.total_mm),
        "group_not_known": group.not_known,
    }


def _total(group: CutGroup) -> Row:
    return {
        "gauge_awg": group.gauge_awg,
        "colour": group.colour,
        "pieces": len(group.pieces),
        "total_mm": tenths_up(group.total_mm),
        "not_known": group.not_known,
    }


def _notes(build: CraftBuild) -> tuple[str, ...]:
    cutting = build.craft.settings.cutting
    notes = [
        cut_length_words(cutting),
        *length_legend(build.craft.leads, build.craft.settings),
    ]
    if any(TO_FIT in (piece.strip_from, piece.strip_to) for piece in build.cuts):
        notes.append(
            "Strip not known: no table has the length; hold the wire beside the cup, pad, joint or barrel before you "
            "strip it."
        )
    captive = sum(1 for made in build.leads if made.wire_from is WireFrom.CAPTIVE)
    made = sum(1 for lead in build.leads if lead.wire_from is WireFrom.MADE)
    whole = sum(1 for taken in build.plan.taken.values() if not taken.cut)
    for number, what in (
        (captive, "belong to a part (motor, camera, pack)"),
        (made, "come in ready-made cables"),
        (whole, "are ready-made or pre-crimped, used as bought"),
    ):
        if number:
            notes.append(f"Leads not cut because they {what}: {number}.")
    if any(cable.is_live for cable in build.plan.cables):
        notes.append("Cut a pack's own leads by the plan's sheets alone, at the steps marked LIVE.")
    colours, gauges = colour_legend(piece.colour for piece in build.cuts), gauge_legend(p.gauge_awg for p in build.cuts)
    return (*notes, *colours, *gauges)


DOCUMENT = Document(
    id="cut-list",
    title="Cut list",
    purpose="Wires to cut: gauge, colour, length, where each is taken from",
    row="piece to cut",
    columns=COLUMNS,
    rows=cut_list,
    totals=Totals(_TOTALS, cut_totals),
    notes=_notes,
    bench=True,
)
