"""Cables that do not stay as they are; single wires are told as leads."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tabside.compare.changes.change import ADDED, CHANGED, REMOVED, Change
from tabside.compare.fates.cable_fate import KEEP, CableFate
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.side import Side
from tabside.model.craft import Cable
from tabside.words.contacts import counted


def changes_of_cables(rebuild: Rebuild, fates: Sequence[CableFate]) -> Iterator[Change]:
    """A change for each cable that does not stay as it is; single wires are told as leads."""
    old, new = rebuild.old, rebuild.new
    for fate in fates:
        before = None if fate.old is None else _words(old, fate.old)
        after = None if fate.new is None else _words(new, fate.new)
        if fate.what == KEEP or not fate.is_cable:
            continue
        if after is None:
            yield Change(REMOVED, "cable", before or "", before, None, fate.words)
        elif before is None:
            yield Change(ADDED, "cable", after, None, after, fate.words)
        else:
            yield Change(CHANGED, "cable", after, before, after, fate.words)


def _words(side: Side, cable: Cable) -> str:
    count = len(cable.leads)
    return f"{' - '.join(side.name(end) for end in cable.ends)}, {counted(count, 'wire')}"
