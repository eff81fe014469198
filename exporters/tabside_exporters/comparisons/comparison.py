"""The comparison of two revisions: one row for each change, with what to do about it on the bench."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tabside.compare.change import Change
from tabside.compare.craft_files import craft_file_words
from tabside.compare.held import held_prefix, held_words, why_not_yet
from tabside.compare.order import FIRST_TITLE, stamp_words
from tabside.compare.stated import finding_words
from tabside.documents.document import Document, Page
from tabside.documents.rows import Column, Row
from tabside.make.sheets.cable_plan import CableEnd, Cavity
from tabside.make.sheets.plug_views import Views
from tabside_exporters.formats.html_pages import write_html
from tabside_exporters.pages.plug_drawing import plug_pair

if TYPE_CHECKING:
    from tabside.compare.comparison import Comparison
    from tabside.compare.side import Side
    from tabside.documents.about import About
    from tabside.documents.build import Build
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


def write_comparison(comparison: Comparison, about: About, format: Format) -> bytes:
    """The comparison in a format; `about` is that of the new build.

    In HTML each changed plug is drawn, old and new.
    """
    held = held_prefix(comparison)
    rows = tuple(_row(change, held) for change in comparison.changes)
    page = Page(_COMPARISON, about, rows, None, notes_of(comparison))
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
        told = [(each.number, each.signal) for each in before] != [(each.number, each.signal) for each in after]
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


def notes_of(comparison: Comparison) -> tuple[str, ...]:
    """What stands below the table: how terminations were matched, parts, measurements, findings."""
    retest = comparison.retest
    lines = [f"Compared with {comparison.old.described}.", *filter(None, [craft_file_words(comparison.changes)])]
    lines += filter(None, [stamp_words(comparison)])
    lines += [f"Matched: {line}." for line in comparison.how_matched()]
    lines += [f"Keep as it is: {line}." for line in comparison.kept()]
    lines += [f"Parts: {each.more:+d} {each.item}." for each in comparison.purchases]
    todo = comparison.todo
    lines += [f"Caution, at packs before and after the cables: {text}" for text in todo.cautions]
    lines += [f"{FIRST_TITLE}: {line}." for line in todo.first]
    for work in comparison.work:
        lines += [f"Caution, cable {work.fate.name}: {text}" for text in work.cautions]
        lines += [f"Cable {work.fate.name}: {text}" for text in held_words(comparison, work.fate) if work.steps]
        lines += [f"Cable {work.fate.name}, {work.fate.what}, {step.number}: {step.words}." for step in work.steps]
    for row in comparison.measure:
        lines.append(f"Measure again, step {comparison.step_of.get(row.id, '-')} of the continuity sheet: {row.words}")
    lines += [f"Last of all: {line}." for line in todo.last]
    for title, findings in (("New", retest.new), ("Gone", retest.gone), ("Still there", retest.still)):
        lines += [f"{title}: {finding_words(finding)}" for finding in findings]
    cleared = why_not_yet(comparison)
    if cleared:
        lines.insert(0, cleared)
    if comparison.same:
        lines.append("Same build: every cable stays as it is.")
    return tuple(lines)


def _row(change: Change, held: str) -> Row:
    return {
        "subject": change.subject,
        "kind": change.kind,
        "name": change.name,
        "before": change.before or "",
        "after": change.after or "",
        "bench": f"{'' if change.subject in _TOLD else held}{change.bench}",
    }


def _of_a_build(build: Build) -> tuple[Row, ...]:
    """A build alone has nothing to be compared with."""
    return ()


_COMPARISON = Document(
    id="comparison", title="Comparison", row="change", columns=COLUMNS, rows=_of_a_build, bench=True, group="subject"
)
