"""The comparison of two revisions: one row for each change, with what to do about it on the bench."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from tabside.compare.changes.change import Change
from tabside.compare.held import held_prefix, held_words, why_not_yet
from tabside.compare.order.order_of_work import Order
from tabside.compare.order.sheets import doing, row_line, work_words
from tabside.compare.order.titles import FIRST_TITLE, PLUG_IN_TITLE
from tabside.documents.document import Document, Page
from tabside.documents.rows import Column, Row
from tabside.make.sheets.cable_plan import CableEnd, Cavity
from tabside.make.sheets.plug_views import Views
from tabside.words.cautions import ORDER_OF_CHANGES
from tabside_exporters.formats.html_pages import write_html
from tabside_exporters.pages.plug_drawing import plug_pair

if TYPE_CHECKING:
    from tabside.compare.comparison import Comparison
    from tabside.compare.fates.cable_fate import CableFate
    from tabside.compare.side import Side
    from tabside.compare.work.cable_work import CableWork
    from tabside.documents.about import About
    from tabside.documents.build import CraftBuild
    from tabside.documents.document import Format

_WORK = (("order-of-work.html", "What to do at the bench, step by step"),)
COLUMNS = (
    Column(
        "subject",
        "what changed: board, connector or pad (termination), wire (lead), cable, part, fact, setting, acceptance, "
        "finding",
    ),
    Column("kind", "added, removed, moved or changed"),
    Column("name", "as a person finds it in the new drawing, or in the old one when it has gone"),
    Column("before", "in the old build"),
    Column("after", "in the new build"),
    Column("bench", "what to do on the bench"),
)
_TOLD = ("finding", "acceptance")  # nothing that hands do on the craft


def write_comparison(order: Order, about: About, format: Format) -> bytes:
    """The comparison in a format; `about` is that of the new build.

    In HTML each changed plug is drawn, old and new.
    """
    comparison = order.comparison
    held = held_prefix(comparison)
    rows = tuple(_row(change, held) for change in comparison.changes)
    page = Page(_COMPARISON, about, rows, None, notes_of(order))
    return write_html(page, plug_pairs(comparison), beside=_WORK) if format.id == "html" else format.write(page)


def plug_pairs(comparison: Comparison) -> tuple[str, ...]:
    """Old and new order of each plug that changes, drawn side by side."""
    old, new = comparison.old, comparison.new
    views = (Views(old.craft), Views(new.craft))
    touched = {key[0] for ends in comparison.leads.touched for key in ends}
    drawn = []
    for reference, now in comparison.matching.pairs.items():
        if not new.terminations[now].takes_plug:
            continue
        before, after = _cavities(old, reference), _cavities(new, now)
        told = [(cavity.number, cavity.signal) for cavity in before] != [
            (cavity.number, cavity.signal) for cavity in after
        ]
        if told or now in touched:
            ends = (_end(views[0], old, reference), _end(views[1], new, now))
            drawn.append(plug_pair(new.name(now), before, after, ends))
    return tuple(drawn)


def _end(views: Views, side: Side, reference: str) -> CableEnd:
    """How the plug lies in the hand there."""
    return views.end(reference, side.made_at(reference))


def _cavities(side: Side, reference: str) -> tuple[Cavity, ...]:
    """Each cavity with the mark of its lead in that build."""
    leads = {key: lead for lead in side.craft.leads for key in lead.ends}
    return tuple(
        Cavity(
            contact.number,
            leads[contact.key].mark if contact.key in leads else None,
            contact.label,
            leads[contact.key].colour if contact.key in leads else None,
        )
        for contact in side.terminations[reference].contacts
    )


def notes_of(order: Order) -> tuple[str, ...]:
    """What stands below the table: how terminations were matched, the order of work, findings."""
    comparison = order.comparison
    told: tuple[tuple[str, Iterable[str]], ...] = (
        ("Matched", order.matched),
        ("Keep as it is", order.kept),
        ("Caution", () if comparison.same else ORDER_OF_CHANGES),  # the others stand above the table
        ("Get first", order.get),
        ("Tools", order.tools),
        ("Numbers", order.numbers),
        ("Labels", order.labels),
        ("Caution, at packs before and after the cables", comparison.todo.cautions),
        (FIRST_TITLE, order.first),
        ("The meter first", order.meter),
        *((_head(work.fate), _of_cable(work, order)) for work in order.works),
        (PLUG_IN_TITLE, order.plug_in),
        ("Measure last", order.last),
        ("First power", (*order.at_packs, *order.power)),
        ("Stated again", order.stated),
        ("For the drawer", order.free),
        ("New", order.new),
        ("Gone", order.gone),
        ("Still there", order.still),
    )
    return (
        *filter(None, [why_not_yet(comparison)]),
        f"Compared with {comparison.old.described}.",
        *(f"Stop. {_head(work.fate)}: {work.stopped}" for work in order.works if work.stopped),
        *filter(None, [order.craft_file, order.chosen, order.stamp]),
        *(f"{title}: {line}" for title, lines in told for line in lines),
        *(["Same build: every cable stays as it is."] if comparison.same else []),
    )


def _head(fate: CableFate) -> str:
    """ "Cable C3 (was C4), re-pin", "Wires W1 W2, make", or "Board hub, other board"."""
    return f"{fate.title}, {doing(fate)}"


def _of_cable(work: CableWork, order: Order) -> Iterator[str]:
    """Its sheet, line by line."""
    yield from held_words(order.comparison, work.fate) if work.steps else ()
    yield work_words(work)
    yield from (f"Caution: {text}" for text in work.cautions)
    yield from (f"Check by eye first: {text}" for text in work.looks)
    for step in work.steps:
        yield f"{step.number}. {step.words}"
        yield from (aside.words for aside in step.unplug)
        yield from (row_line(order.comparison, row) for row in step.rows)
        yield from (aside.words for aside in step.plug_in)


def _row(change: Change, held: str) -> Row:
    return {
        "subject": change.subject,
        "kind": change.kind,
        "name": change.name,
        "before": change.before or "",
        "after": change.after or "",
        "bench": f"{'' if change.subject in _TOLD else held}{change.bench}",
    }


def _of_a_build(build: CraftBuild) -> tuple[Row, ...]:
    """A build alone has nothing to be compared with."""
    return ()


_COMPARISON = Document(
    id="comparison", title="Comparison", row="change", columns=COLUMNS, rows=_of_a_build, bench=True, group="subject"
)
