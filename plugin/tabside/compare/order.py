"""All that there is to do between two builds, as lists in the order of work."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import groupby

from msgspec import Struct

from tabside.compare.change import CHANGED, Change
from tabside.compare.comparison import Comparison
from tabside.compare.fates.cable_fate import KEEP, KEEP_WORDS
from tabside.compare.stated import OTHER_CONTACTS, finding_words
from tabside.compare.work.numbers import ASIDE, SPARE, Number
from tabside.compare.work.parts import stock_text
from tabside.compare.work.steps import CableWork
from tabside.make.buy.purchase import MILLIMETRES
from tabside.prove.rows.row_words import row_words


class Order(Struct, frozen=True):
    """Each list is empty where there is nothing of its kind to do."""

    comparison: Comparison
    matched: tuple[str, ...]
    get: tuple[str, ...]  # parts
    boards: tuple[str, ...]
    works: tuple[CableWork, ...]  # cables on which there is something to do
    parts: tuple[str, ...]  # across wires
    last: tuple[str, ...]  # measurements that belong to no cable
    numbers: tuple[str, ...]  # to put on cables and wires that stay
    settings: tuple[Change, ...]
    facts: tuple[str, ...]
    new: tuple[str, ...]
    gone: tuple[str, ...]
    still: tuple[str, ...]
    acceptances: tuple[str, ...]
    free: tuple[str, ...]
    stock: str  # what becomes free, in the words of the craft file
    kept: tuple[str, ...]

    @property
    def rest(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """What comes after the cables, each with a word for it."""
        settings = tuple(f"{each.name}: {each.after or 'nothing'}. {each.bench}" for each in self.settings)
        return (
            ("part", self.parts),
            ("measure last", self.last),
            ("number", self.numbers),
            ("firmware", settings),
            ("stated again", self.facts),
            ("new finding", self.new),
            ("finding fixed", self.gone),
            ("finding open", self.still),
            ("acceptance", self.acceptances),
            ("becomes free", self.free),
        )


def order_of_work(found: Comparison) -> Order:
    """From the boards to the drawer."""

    def told(*subjects: str) -> tuple[str, ...]:
        return tuple(_told(change) for change in found.changes if change.subject in subjects)

    works = tuple(work for work in found.work if work.steps or work.stopped or work.fate.what != KEEP)
    in_steps = {row.id for work in works for step in work.steps for row in step.rows}
    return Order(
        found,
        matched=tuple(found.how_matched()),
        get=tuple(_need(each.item, each.more, each.to_buy) for each in found.purchases if each.more > 0),
        boards=tuple(_told(change) for change in _of_boards(found)),
        works=works,
        parts=told("part"),
        last=tuple(
            f"{found.step_of.get(row.id, '-')}. {row_words(row)}" for row in found.measure if row.id not in in_steps
        ),
        numbers=tuple(_numbers(found)),
        settings=tuple(c for c in found.changes if c.subject == "setting" and c.bench != OTHER_CONTACTS),
        facts=(*told("fact"), *_stated_now(found, works)),
        new=tuple(map(finding_words, found.retest.new)),
        gone=tuple(map(finding_words, found.retest.gone)),
        still=tuple(map(finding_words, found.retest.still)),
        acceptances=told("acceptance"),
        free=tuple(f"{-each.more} x {each.item}" for each in found.purchases if each.more < 0),
        stock=stock_text(found.old, found.cables),
        kept=tuple(found.kept()),
    )


def _stated_now(found: Comparison, works: Collection[CableWork]) -> Iterator[str]:
    """Of cables that stay what must be looked at all the same."""
    for work in found.work:
        fate = work.fate
        if work not in works and fate.new is not None and fate.words != KEEP_WORDS:
            yield f"{' - '.join(found.new.name(end) for end in fate.new.ends)} ({fate.name}): {fate.words}"


def _of_boards(found: Comparison) -> Iterator[Change]:
    """Boards, and the connectors of those that stay."""
    names = {change.name for change in found.changes if change.subject == "board" and change.kind != CHANGED}
    for change in found.changes:
        if change.subject == "board" or (change.subject == "termination" and change.name.split("/")[0] not in names):
            yield change


def _told(change: Change) -> str:
    if change.kind == CHANGED and change.before and change.after:
        return f"{change.name}: before {change.before}; now {change.after}. {change.bench}"
    return f"{change.name}: {change.bench}"


def _need(item: str, more: int, to_buy: int | None) -> str:
    there = "" if to_buy is None or to_buy == more else f", {more - to_buy} from stock"
    length = item.removesuffix(f", {MILLIMETRES}")
    return f"{more} x {item}{there}" if length == item else f"{more} mm of {length}{there}"


def _numbers(found: Comparison) -> Iterator[str]:
    """New numbers, those of one cable that follow each other on one line."""
    for where, group in groupby(found.todo.numbers, key=lambda each: each.where):
        yield f"{where}: {', then '.join(_renumbered(each) for each in group)}"


def _renumbered(number: Number) -> str:
    if number.now == ASIDE:
        return f"take the number {number.was} off and write {ASIDE} for now"
    if number.was == ASIDE:
        return f"what you marked {ASIDE} becomes {number.now}"
    if number.now.startswith(SPARE):
        return f'{number.was} is no longer used: write "{number.now}" on it'
    return f"{number.was} becomes {number.now}"
