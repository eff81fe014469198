"""A cable's sheet in the order of work: what is done with it, and how a page lays it out."""

from __future__ import annotations

from tabside.compare.comparison import Comparison
from tabside.compare.fates.cable_fate import KEEP, MOVE_PLUG, CableFate
from tabside.compare.work.cable_work import CableWork
from tabside.make.method import Method
from tabside.make.sheets.cable_plan import CablePlan
from tabside.prove.measurement import Measurement
from tabside.prove.rows.row_words import row_words

_STAYS = "It stays as it is. What the drawing says of it has changed: measure it."


def as_plan(work: CableWork) -> CablePlan:
    """The work on a cable as a sheet of the plan, so that it is laid out like one."""
    cable = work.fate.new or work.fate.old
    return CablePlan(
        mark=None if cable is None else cable.mark or None,
        label=work.fate.name,
        leads=() if cable is None else cable.leads,
        ends=work.ends,
        method=Method.RE_PIN if work.sheet is None else work.sheet.method,
        start_from=None,
        from_what="",
        steps=work.steps,
        needs_one_look=work.looks,
        minutes=0.0,
        cost=0.0,
        why=work_words(work),
        rows=work.rows,
        start=None,
        handling=(),
        stopped=work.stopped,
        cautions=work.cautions,
    )


def row_line(found: Comparison, row: Measurement) -> str:
    """By its number on the continuity sheet."""
    return f"row {found.step_of.get(row.id, '-')}: {row_words(row)}"


def doing(fate: CableFate) -> str:
    """In one word."""
    if fate.board is not None:
        return f"onto the new {fate.board.kind}" if fate.what == MOVE_PLUG else fate.what
    return "measure" if fate.what == KEEP else fate.what


def work_words(work: CableWork) -> str:
    if work.fate.what == KEEP and work.steps:
        return " ".join(filter(None, (_STAYS, work.fate.said)))
    return work.fate.words
