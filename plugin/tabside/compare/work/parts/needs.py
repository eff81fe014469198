"""What to get for the new build, and what becomes free for the drawer."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from tabside.analysis.joined.lead_ends import EndKind
from tabside.compare.fates.cable_fate import CableFate, plugs_made_anew
from tabside.compare.fates.packs import boards_that_go
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.other_boards import Exchanged
from tabside.compare.side import Side
from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.new_wires import NewWires
from tabside.compare.work.parts.differences import boards_by_difference, packs_by_difference, parts_by_difference
from tabside.compare.work.parts.freed import emptied_housings, freed_by
from tabside.compare.work.parts.thing import Need, Tally, Thing, thing_of
from tabside.compare.work.plugs import Plugs
from tabside.make.buy.part_numbers import contact_choice, housing_number
from tabside.make.buy.purchase import PIECES, Item, Purchase
from tabside.make.sheets.cable_plan import Action
from tabside.model.craft import Kind
from tabside.model.natural import natural
from tabside.words.contacts import listed

_SHELLS = (Item.HOUSING, Item.CUP_PLUG)
_LONG = (Item.CABLE, Item.LEAD)  # bought at one length


def needs_between(
    rebuild: Rebuild,
    fates: Iterable[CableFate],
    wires: NewWires,
    plugs: Plugs,
    exchanged: Exchanged,
    crimped: Iterable[tuple[str, int | None]] = (),
) -> tuple[Need, ...]:
    """Boards and parts by the difference of the drawings; the rest by what is made, moved over, and taken out.

    `crimped`: family and gauge of each contact that a wire which stays gets anew.
    """
    old, new = rebuild.old, rebuild.new
    all_fates = list(fates)
    tally = Tally()
    for family, gauge in crimped:
        number = contact_choice(family, gauge)[0]
        contact = thing_of(Purchase(Item.CONTACT, part_number=number, family=family, gauge_awg=gauge))
        tally.more[contact] += 1
        tally.notes[contact] = "none for a spoiled crimp among them"
    for line in wires.purchases:
        if line.drawn is None:
            _count_line(tally, new, line, all_fates)
    for fate in all_fates:
        tally.more.update(_moved_over(new, fate))
    boards_by_difference(rebuild, exchanged.boards, tally)
    packs_by_difference(rebuild, exchanged.packs | boards_that_go(old, all_fates), tally)
    parts_by_difference(rebuild, exchanged, tally)
    free = Counter(thing for fate in all_fates for thing in freed_by(old, fate, plugs))
    free.update(emptied_housings(old, new, all_fates, plugs))
    return tally.needs(free)


def _count_line(tally: Tally, new: Side, line: Purchase, fates: Iterable[CableFate]) -> None:
    """A line of the list of what the new wires need."""
    thing = thing_of(line)
    counted = line.quantity if line.item not in _SHELLS else _empty_housings(new, line, fates)
    count = counted or 0
    tally.more[thing] += count
    tally.in_stock[thing] += min(count, line.in_stock + line.in_kits)
    if unknown := _of_unknown_length(new, line):
        pieces = thing._replace(unit=PIECES)
        tally.more[pieces] += len(unknown)
        tally.notes[pieces] = f"{listed(unknown, 40)}: length not known, lay a string along the path first"
    if line.item is Item.CONTACT:
        tally.notes[thing] = line.note
    if line.item in _LONG and line.note:
        said = f"{' and '.join(line.used_for)}: {line.note}"
        tally.notes[thing] = f"{tally.notes[thing]}; {said}" if thing in tally.notes else said


def _of_unknown_length(new: Side, line: Purchase) -> list[str]:
    """Wires that are cut from wire which is bought by its length, while theirs is not known."""
    marks = line.used_for if line.item is Item.WIRE else ()
    return [mark for mark in marks if mark in new.by_mark and new.by_mark[mark].length_mm is None]


def _empty_housings(new: Side, line: Purchase, fates: Iterable[CableFate]) -> int:
    """Of those that the plan counts: a wire that joins a cable goes into the housing that is there."""
    marks = {mark for fate in fates if fate.new and not fate.wires for mark in fate.new.leads}
    empty = {key[0] for mark in marks for key in new.by_mark[mark].ends}
    for fate in fates:
        if fate.new is not None and fate.wires:
            made = {key[0] for wire in fate.made for key in wire}
            empty |= plugs_made_anew(new, fate) & made  # the others are counted below
    names = {f"{new.terminations[ref].board}/{ref}" for ref in empty}
    return len(names.intersection(line.used_for))  # one for each, whatever its wires go on to


def _moved_over(new: Side, fate: CableFate) -> Iterator[Thing]:
    """The housings into which contacts go over, and those into which old wires go alone."""
    places = dict(fate.places)
    made = {key[0] for wire in fate.made for key in wire}
    alone = sorted(plugs_made_anew(new, fate) - made, key=natural) if fate.wires else []
    for to in (*(places[ref] for ref in fate.rehoused), *alone):
        now = new.terminations[to]
        if now.kind is Kind.RECEPTACLE and now.family is not None:
            number, _, _ = housing_number(EndKind.CONTACT, now.family, now.ways, now.rows)
            yield thing_of(Purchase(Item.HOUSING, part_number=number, family=now.family, ways=now.ways))


def crimped_anew(works: Iterable[CableWork]) -> Iterator[tuple[str, int | None]]:
    """Contacts for wires that stay and get a new end."""
    for work in works:
        families = {end.name: end.family for end in work.ends if not end.of_old}
        for step in work.steps:
            family = families.get(step.end)
            if step.action is Action.CRIMP and step.lead in work.old_leads and family is not None:
                yield family, work.gauges.get(step.lead)
