"""`tabside compare OLD NEW`: what changed, what to do on the bench, what to test again."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Collection, Iterable, Iterator

from tabside.cli.printing.paragraphs import filled
from tabside.compare.changes.craft_files import NAME as CRAFT_FILE
from tabside.compare.changes.findings import finding_words
from tabside.compare.comparing import compare_crafts
from tabside.compare.comparison import Comparison, cleared_words
from tabside.compare.comparison_json import comparison_json
from tabside.compare.held import held_words, not_yet, title_of, why_not_yet
from tabside.compare.order.order_of_work import Order, order_of_work
from tabside.compare.order.parts_to_get import spare_plug_lines
from tabside.compare.order.sheets import doing, row_line, work_words
from tabside.compare.order.titles import (
    FIRST_TITLE,
    LABELS_TITLE,
    LAST_TITLE,
    METER_TITLE,
    NUMBERS_TITLE,
    PARTS_TITLE,
    PLUG_IN_TITLE,
    POWER_TITLE,
    STATED_TITLE,
    TOOLS_TITLE,
)
from tabside.compare.pages import write_comparison
from tabside.compare.revisions.sources import load
from tabside.compare.work.cable_work import CableWork
from tabside.errors import TabsideError
from tabside.read.kicad.lock import OnScreen, on_screen
from tabside.words.cautions import CAUTIONS, ORDER_OF_CHANGES
from tabside.words.contacts import counted, plural
from tabside.words.visible_text import visible


def compared(arguments: Namespace) -> Comparison:
    """Read both sides and compare them.

    Raises: TabsideError, also for formats of documents that nobody asked for.
    """
    if arguments.formats is not None and not arguments.to:
        raise TabsideError("--as gives formats of documents, and there are none without --to DIR: add it or drop --as")
    old, new = (
        load(revision, kicad=arguments.kicad, variant=arguments.variant) for revision in (arguments.old, arguments.new)
    )
    return compare_crafts(old, new)


def run(arguments: Namespace, comparison: Comparison) -> dict[str, object] | None:
    """Write or print; returns the JSON object when that was asked for."""
    files: tuple[str, ...] = ()
    if arguments.to:
        unsaved = on_screen(arguments.new) is OnScreen.CHANGED
        files = write_comparison(comparison, arguments.to, arguments.formats, unsaved=unsaved)
    if arguments.json:
        return comparison_json(comparison)
    _print(comparison)
    if files:
        print(f"\nWritten to {visible(arguments.to)}:")
        print("\n".join(f"  {file}" for file in files))
    print()
    print(filled(_last_line(comparison)))
    return None


_HEADS = {"termination": "Connectors and pads", "lead": "Wires"}


def _print(comparison: Comparison) -> None:
    old, new = comparison.old.craft, comparison.new.craft
    print(filled(f"{old.name} {old.revision} ({old.drawing_hash}) -> {new.name} {new.revision} ({new.drawing_hash})"))
    order = order_of_work(comparison)
    for said in filter(None, (order.craft_file, order.chosen)):
        print(f"\n{filled(said)}")
    _print_list("How connectors and pads were matched", comparison.how_matched())
    if not_yet(comparison):
        print(f"\n{filled(why_not_yet(comparison))}")
    _print_changes(comparison)
    _print_work(comparison, order)
    retest = comparison.retest
    _print_list("New findings", map(finding_words, retest.new))
    _print_list("Findings fixed", map(finding_words, retest.gone))
    _print_list("Findings still open", map(finding_words, retest.still))


def _print_changes(comparison: Comparison) -> None:
    """What is different, and what stays."""
    subject, to_do = "", "not yet" if not_yet(comparison) else "to do"
    for change in comparison.changes:
        if change.subject == "finding" or change.name == CRAFT_FILE:
            continue  # told below, with those that stand, and above
        if change.subject != subject:
            subject = change.subject
            print(f"\n{_HEADS.get(subject) or plural(2, subject.capitalize())}")
        sign = {"added": "+", "removed": "-", "moved": ">", "changed": "~"}[change.kind]
        print(filled(f"{sign} {change.name}: {change.kind}", "  ", "    "))
        if change.before and change.after and change.before != change.after:
            print(filled(f"before: {change.before}", "      ", "        "))
            print(filled(f"after:  {change.after}", "      ", "        "))
        print(filled(f"{to_do}: {change.bench}", "      ", "        "))
    if not comparison.same:
        kept = list(comparison.kept())
        print(f"\nCables kept as they are: {len(kept)}")
        if kept:
            print(filled("; ".join(kept), "  "))


def _print_work(comparison: Comparison, order: Order) -> None:
    """What is done, in the order of work."""
    if not comparison.same:
        _print_list("Caution", (f"! {text}" for text in (*CAUTIONS, *ORDER_OF_CHANGES)))
    parts = (f"{need.more:+d} {need.item}{f' ({need.note})' if need.note else ''}" for need in comparison.purchases)
    title = "Parts: get these first (+), left over for your stock (-)"
    _print_list(title_of(comparison, title), (*parts, *spare_plug_lines(comparison)))
    _print_list(title_of(comparison, TOOLS_TITLE), order.tools)
    _print_list(title_of(comparison, NUMBERS_TITLE), order.numbers)
    if order.stamp:
        print(f"\n{filled(order.stamp)}")
    _print_list(title_of(comparison, LABELS_TITLE), order.labels)
    _print_list(
        title_of(comparison, FIRST_TITLE),
        (*_cautions(comparison.todo.cautions, comparison.todo.first), *comparison.todo.first),
    )
    _print_list(title_of(comparison, METER_TITLE), order.meter)
    for work in comparison.work:
        _print_list(title_of(comparison, _head(work)), _steps(comparison, work))
    _print_list(title_of(comparison, PARTS_TITLE), order.parts)
    _print_list(title_of(comparison, PLUG_IN_TITLE), order.plug_in)
    _print_list(title_of(comparison, LAST_TITLE), order.last)
    power = (*_cautions(comparison.todo.cautions, order.at_packs), *order.at_packs, *order.power)
    _print_list(title_of(comparison, POWER_TITLE), power)
    _print_list(title_of(comparison, STATED_TITLE), order.stated)


def _cautions(cautions: Iterable[str], lines: Collection[object]) -> Iterator[str]:
    """Those of a list, where it has a line."""
    return (f"! {text}" for text in cautions if lines)


def _head(work: CableWork) -> str:
    fate = work.fate
    return f"{fate.title}: {'another one goes in' if fate.is_board else doing(fate)}"


def _steps(comparison: Comparison, work: CableWork) -> Iterator[str]:
    yield from held_words(comparison, work.fate) if work.steps else ()
    if work.stopped:
        yield f"STOP: {work.stopped}"
    if work.steps and not work.fate.is_cable:
        yield work_words(work)  # those of a cable stand among the changes
    yield from _cautions(work.cautions, work.steps)
    yield from (f"check by eye first: {text}" for text in work.looks)
    for step in work.steps:
        yield f"{step.number}. {step.words}"
        yield from (f"  before: {aside.words}" for aside in step.unplug)
        yield from (f"  {row_line(comparison, row)}" for row in step.rows)
        yield from (f"  after: {aside.words}" for aside in step.plug_in)


def _print_list(title: str, lines: Iterable[str]) -> None:
    listed = list(lines)
    if not listed:
        return
    print(f"\n{filled(title)}")
    for line in listed:
        print(filled(line, "  ", "    "))


def _last_line(comparison: Comparison) -> str:
    cleared = cleared_words(comparison)
    if comparison.same:
        return f"Same build: every cable stays as it is. {cleared}".strip()
    if cleared:
        return cleared
    count = len(comparison.changes)
    return (
        f"{counted(count, 'change')}. Battery and USB unplugged, propellers off: do the listed work, "
        "then test the listed wires before you apply power."
    )
