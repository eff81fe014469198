"""Labels that say something else now: another number, board or connector, or an end that had none.

Their texts are those of the page of labels.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from tabside.compare.fates.cable_fate import CableFate, contact_pairs
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.side import Side


class NewLabels(NamedTuple):
    """What is to be printed again for one cable, or for single wires."""

    name: str  # "C3 (was C4)"
    where: str
    flags: tuple[str, ...]  # each with what it said before, where it was there
    tubes: tuple[str, ...]

    @property
    def words(self) -> str:
        return f"{self.name}, {self.where}: {self.texts}"

    @property
    def texts(self) -> str:
        told = [f"{kind} {', '.join(texts)}" for kind, texts in (("flags", self.flags), ("tubes", self.tubes)) if texts]
        return "; ".join(told)


def labels_again(rebuild: Rebuild, fates: Iterable[CableFate]) -> Iterator[NewLabels]:
    """Of cables and wires that go on."""
    old, new, matching = rebuild
    for fate in fates:
        if fate.new is None or not fate.wires:
            continue
        places = {**matching.pairs, **dict(fate.places)}
        ends = {places.get(ref): (mark, ref) for ref, mark in _old_ends(old, fate).items()}
        flags = []
        for to in fate.new.ends if fate.new.mark else ():
            before = _flag(old, *ends[to]) if to in ends else ""
            now = _flag(new, fate.new.mark, to)
            flags += [f"{now} (was {before})" if before else now] if before != now else []
        tubes = []
        for before_wire, after in fate.wires:
            mark = new.leads[after].mark
            renumbered = old.leads[before_wire].mark != mark
            pairs = sorted(contact_pairs(places, before_wire, after), key=lambda pair: pair[1])
            tubes += [f"{mark} {there[0]}:{there[1]}" for here, there in pairs if here != there or renumbered]
        if flags or tubes:
            where = " - ".join(new.name(ref) for ref in fate.new.ends)
            yield NewLabels(fate.label, where, tuple(flags), tuple(tubes))


def _old_ends(old: Side, fate: CableFate) -> dict[str, str]:
    """Each place that the wires come from, and the cable whose flag is there; a single wire has none."""
    found: dict[str, str] = {}
    for before, _ in fate.wires:
        for reference, _ in sorted(before):
            mark = old.leads[before].cable
            if mark is not None:
                found.setdefault(reference, mark)
    return found


def _flag(side: Side, mark: str, reference: str) -> str:
    return " | ".join(dict.fromkeys(text for text in (mark, side.terminations[reference].board, reference) if text))
