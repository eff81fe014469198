"""New numbers and labels for what is there, as lines of a list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from tabside.compare.changes.new_labels import NewLabels
from tabside.compare.comparison import Comparison
from tabside.compare.fates.cable_fate import KEEP
from tabside.compare.work.numbers import ASIDE, Number, Renumber
from tabside.wiring.leads.marks import stamped_cable_marks, stamped_lead_marks
from tabside.words.contacts import listed

_ALL = 1000  # numbers of one cable: none may be left out
STAMP = (
    "Numbers of what stays changed only because other cables and wires came or went. `tabside stamp` writes them into "
    "the drawing: stamp what is built, and the next change leaves them as they are."
)


def number_lines(found: Comparison) -> Iterator[str]:
    """New numbers, those of one cable that follow each other on one line."""
    for where, group in groupby(found.todo.numbers, key=lambda number: number.where):
        told = (_renumbered(list(alike)) for _, alike in groupby(group, key=_how_renumbered))
        yield f"{where}: {', then '.join(told)}"


def stamp_words(found: Comparison) -> str:
    """How numbers stay: where one of a cable or wire that stays as it is has changed, and no drawing holds it."""
    old = found.old
    held = {mark for marks in stamped_lead_marks(old.terminations)[0].values() for mark in marks}
    held |= set(stamped_cable_marks(old.terminations)[0].values())
    kept = {old.leads[wire].mark for fate in found.cables if fate.what == KEEP for wire, _ in fate.wires}
    kept |= {fate.old.mark for fate in found.cables if fate.what == KEEP and fate.old is not None}
    changed = {number.first for number in found.todo.numbers if number.how is Renumber.NEW}
    return STAMP if changed & kept - held else ""


def labels_told(found: Comparison) -> Iterator[NewLabels]:
    """Those to print again; none of a sheet that stops."""
    stopped = {work.fate.label for work in found.work if work.stopped}
    return (labels for labels in found.labels if labels.name not in stopped)


def label_lines(found: Comparison) -> Iterator[str]:
    """What to print again, and when it goes on."""
    by_sheet = {work.fate.label for work in found.work if work.steps and work.fate.new is not None}
    for labels in labels_told(found):
        yield f"{labels.words}: {'by its sheet' if labels.name in by_sheet else 'put them on now'}"


def _how_renumbered(number: Number) -> tuple[object, ...]:
    return (number.how, number.of_cable and number.how is not Renumber.ASIDE, number.into)


def _renumbered(numbers: Sequence[Number]) -> str:
    """Those of one cable that are changed in one way."""
    first = numbers[0]
    was, now = (listed([getattr(number, name) for number in numbers], _ALL) for name in ("was", "now"))
    many = len(numbers) > 1
    if first.how is Renumber.OFF:
        return f"take the number {was} off: it becomes part of {first.into}"
    if first.how is Renumber.APART:
        return f"take the number {was} off: its leads stay on the part that brings them, and go on as {first.into}"
    if first.how is Renumber.ASIDE:
        return f"write {ASIDE} before {was} for now"
    if first.how is Renumber.SPARE:
        marks = listed([f'"{number.now}"' for number in numbers], _ALL)
        return f"{was} {'are' if many else 'is'} no longer used: write {marks} on {'them' if many else 'it'}"
    return f"{was} {'become' if many else 'becomes'} {now}{', in this order' if many else ''}"
