"""The wire list: every lead from end to end."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from tabside.documents.build import CraftBuild
from tabside.documents.document import Document
from tabside.documents.rows import CellKind, Column, Row
from tabside.facts.colours import colour_legend
from tabside.words.how_chosen import how_words
from tabside.words.lengths import tenths_up
from tabside_exporters.tables.legend import length_legend

if TYPE_CHECKING:
    from tabside.analysis.joined.lead_ends import LeadEnd, MadeLead
    from tabside.model.craft import Craft, Lead

COLUMNS = (
    Column("mark", "wire number, as on its label"),
    Column("net", "KiCad's name of the net"),
    Column("signal", "what the contacts are called; both names where they differ; else the net"),
    Column("from_board", "board or part of the first end", place="from"),
    Column("from_termination", "reference of the symbol there", place="from"),
    Column("from_contact", "contact or pad, as numbered in the drawing", CellKind.CONTACT, place="from"),
    Column("from_end", "how that end is made; captive: the wire belongs to the part"),
    Column("to_board", "board or part of the other end", place="to"),
    Column("to_termination", "reference of the symbol there", place="to"),
    Column("to_contact", "contact or pad, as numbered in the drawing", CellKind.CONTACT, place="to"),
    Column("to_end", "how that end is made"),
    Column("cable", "number of the cable, for wires that share a plug"),
    Column("gauge_awg", "gauge of the conductor, AWG", CellKind.GAUGE),
    Column("colour", "IEC 60757 code, or as written in the drawing; else of what it is made of, as on the plan"),
    Column(
        "length_mm", "from contact to contact, as stated, or by positions plus the service loop, mm", CellKind.TENTHS
    ),
    Column(
        "chosen",
        "how chosen: drawn (a wire in the drawing); by name (a power symbol or label connects the contacts, and no "
        "other wire would do); chosen (by name, and others would do as well: see that it suits you)",
    ),
    Column("note", "remarks"),
)


def wire_list(build: CraftBuild) -> Iterator[Row]:
    """One row for each lead, in mark order."""
    return (_row(build, made) for made in build.leads)


def _row(build: CraftBuild, made: MadeLead) -> Row:
    craft, lead = build.craft, made.lead
    return {
        "mark": lead.mark,
        "net": lead.net,
        "signal": _signal(craft, lead),
        **_end(craft, "from", made.ends[0]),
        **_end(craft, "to", made.ends[1]),
        "cable": lead.cable or "",
        "gauge_awg": lead.gauge_awg,
        "colour": build.plan.colours.get(lead.mark, lead.colour),
        "length_mm": tenths_up(lead.length_mm),
        "chosen": how_words(lead.how),
        "note": "; ".join(_notes_on(build, made)),
    }


def _end(craft: Craft, which: str, end: LeadEnd) -> Row:
    reference, contact = end.key
    return {
        f"{which}_board": craft.terminations[reference].board,
        f"{which}_termination": reference,
        f"{which}_contact": contact,
        f"{which}_end": end.words,
    }


def _notes_on(build: CraftBuild, made: MadeLead) -> Iterator[str]:
    lead, taken = made.lead, build.plan.taken.get(made.lead.mark)
    if lead.pair:
        yield f"pair {lead.pair}"
    if taken is not None:
        yield f"from {taken.text}"
    yield from made.notes
    yield from lead.notes


def _signal(craft: Craft, lead: Lead) -> str:
    """The label of both contacts, once where they agree; without labels the net's name, if somebody gave it one."""
    labels = dict.fromkeys(label for key in lead.ends if (label := craft.contact(key).label))
    given = "" if lead.net.startswith("Net-(") else lead.net
    return " / ".join(labels) or given


def _notes(build: CraftBuild) -> tuple[str, ...]:
    leads, colours = build.craft.leads, build.plan.colours
    legend = colour_legend(colours.get(lead.mark, lead.colour) for lead in leads)
    chosen = any(lead.colour is None and colours.get(lead.mark) for lead in leads)
    return (*length_legend(leads, build.craft.settings), *legend, *((_CHOSEN,) if chosen else ()))


_CHOSEN = "Colours that the drawing does not state: of the stock, or common practice. Identify no wire by its colour."


DOCUMENT = Document(
    id="wire-list",
    title="Wire list",
    purpose="Every wire with both ends, gauge, colour and length",
    row="wire",
    columns=COLUMNS,
    rows=wire_list,
    notes=_notes,
    bench=True,
)
