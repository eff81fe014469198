"""Cables that become single wires, and single wires that become a cable: one end of each wire stays where it is.

A board that had pads has a connector now, or the other way round.  What is soldered at the far end, or comes out of a
part, is not made again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from tabside.compare.fates.cable_fate import MAKE, RETIRE, CableFate
from tabside.compare.fates.conversions import Conversion
from tabside.compare.fates.decided import decided
from tabside.compare.fates.leads import LeadFates, with_pairs
from tabside.compare.fates.taken_over import Pair, Pool, homes_of, taken_over
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.wires import Ends
from tabside.compare.side import Side


def with_turned(rebuild: Rebuild, leads: LeadFates, fates: Sequence[CableFate]) -> tuple[LeadFates, list[CableFate]]:
    """The same where what is made takes over the wires of what goes, a cable those of single wires or they its."""
    homes = homes_of(rebuild, ())
    found = list(fates)
    for made in fates:
        if made.what != MAKE or made.old is not None:
            continue
        options = [(_taken(rebuild, homes, gone, made), gone) for gone in found if _could(gone, made)]
        taken, gone = max(options, key=lambda option: len(option[0]), default=([], None))
        if not taken or gone is None or gone.old is None or made.new is None:
            continue
        leads = with_pairs(leads, taken)
        places = {ref: homes[ref] for ref in gone.old.ends if homes.get(ref) in made.new.ends}
        conversion = Conversion(gone.old, made.new, places)
        found[found.index(made)], leads = decided(rebuild, leads, conversion, taken)
        found.remove(gone)
    return leads, found


def _could(gone: CableFate, made: CableFate) -> bool:
    """Whether one is a cable and the other single wires."""
    if gone.what != RETIRE or gone.old is None or gone.new is not None or made.new is None:
        return False
    return bool(gone.old.mark) is not bool(made.new.mark)


def _taken(rebuild: Rebuild, homes: Mapping[str, str], gone: CableFate, made: CableFate) -> list[Pair]:
    """Wires that go on; a pack's own never: that is work with power on."""
    old, new = rebuild.old, rebuild.new
    before, after = dict.fromkeys(_ordinary(old, gone.gone), "old"), dict.fromkeys(_ordinary(new, made.made), "new")
    if not {key[0] for wire in after for key in wire} & {homes.get(key[0]) for wire in before for key in wire}:
        return []
    return taken_over(rebuild, homes, Pool(before, after, {"old": "new"}))


def _ordinary(side: Side, wires: Iterable[Ends]) -> Iterator[Ends]:
    """Without a pack's own and those in a part's own plug."""
    for wire in wires:
        if not side.is_in_own_plug(wire) and side.leads[wire].mark not in side.live:
            yield wire
