"""Labels that say something else now: a plug that goes into another connector, or a board or connector of another name.

Their texts are those of the page of labels.  That a number changes is told with the new numbers; between two drawings
of one build nothing is told there, so here it counts as well.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from tabside.compare.fates.cable_fate import CableFate, contact_pairs
from tabside.compare.matching import Matching
from tabside.compare.side import Side


class NewLabels(NamedTuple):
    """What is to be printed again for one cable, or for single wires."""

    where: str
    flags: tuple[str, ...]
    tubes: tuple[str, ...]

    @property
    def words(self) -> str:
        told = [f"{kind} {', '.join(texts)}" for kind, texts in (("flags", self.flags), ("tubes", self.tubes)) if texts]
        return f"{self.where}: {'; '.join(told)}"


def labels_again(
    old: Side, new: Side, matching: Matching, fates: Iterable[CableFate], *, same: bool
) -> Iterator[NewLabels]:
    """Of cables and wires that go on; `same`: the two drawings are one build."""
    for fate in fates:
        if fate.new is None or (fate.old is None and not fate.wires):
            continue
        places = {**matching.pairs, **dict(fate.places)}
        marks = (fate.old.mark if fate.old is not None else "", fate.new.mark)
        ends = {places.get(ref): ref for ref in (fate.old.ends if fate.old is not None else ())}
        flags = [
            f"{_flag(new, marks[1], to)} (was {_flag(old, marks[0], ends[to])})"
            for to in fate.new.ends
            if fate.new.mark and to in ends and _differs(old, ends[to], new, to, marks if same else None)
        ]
        tubes = []
        for before, after in fate.wires:
            mark = new.leads[after].mark
            renumbered = same and old.leads[before].mark != mark
            pairs = sorted(contact_pairs(places, before, after), key=lambda pair: pair[1])
            tubes += [f"{mark} {there[0]}:{there[1]}" for here, there in pairs if here != there or renumbered]
        if flags or tubes:
            where = " - ".join(new.name(ref) for ref in fate.new.ends)
            yield NewLabels(where, tuple(flags), tuple(tubes))


def _differs(old: Side, was: str, new: Side, now: str, marks: tuple[str, str] | None) -> bool:
    if marks is not None and marks[0] != marks[1]:
        return True
    return (was, old.terminations[was].board) != (now, new.terminations[now].board)


def _flag(side: Side, mark: str, reference: str) -> str:
    return " | ".join(dict.fromkeys(each for each in (mark, side.terminations[reference].board, reference) if each))
