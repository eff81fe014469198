"""What to get for the new build, and what becomes free for the drawer."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator
from typing import NamedTuple

from tabside.analysis.lead_ends import EndKind, MadeLead, WireFrom
from tabside.compare.fates.cable_fate import RETIRE, CableFate, plugs_made_anew, wires_of
from tabside.compare.fates.packs import boards_that_go
from tabside.compare.fates.wires import is_replaced
from tabside.compare.matching import Matching
from tabside.compare.other_boards import Exchanged, OtherBoard
from tabside.compare.side import Side
from tabside.compare.work.new_wires import NewWires
from tabside.compare.work.plugs import Plugs
from tabside.facts import families
from tabside.make.buy.part_numbers import contact_choice, housing_number
from tabside.make.buy.part_purchases import inline_and_splices, other_parts
from tabside.make.buy.plug_purchases import CUP_PLUG
from tabside.make.buy.purchase import NOT_KNOWN, PIECES, Purchase
from tabside.make.needs.cable_jobs import releasable
from tabside.model.craft import Cable, ContactKey, Kind, Termination
from tabside.model.natural import natural
from tabside.words.contacts import listed, plural

_HOUSING, _WIRE = "housing", "wire"
_LONG = ("ready-made cable", "pre-crimped lead")  # bought at one length


class Thing(NamedTuple):
    """One kind of part, in words and by what tells it from others; None is "not known", or does not apply."""

    words: str
    unit: str = PIECES
    part_number: str | None = None
    family: str | None = None
    ways: int | None = None
    gauge_awg: int | None = None
    colour: str | None = None
    length_mm: float | None = None  # of each; of one that is bought the least that will do

    @property
    def item(self) -> str:
        return self.words if self.unit == PIECES else f"{self.words}, {self.unit}"


class Need(NamedTuple):
    """How many more of a kind of part the new build needs, or, below zero, how many become free."""

    thing: Thing
    more: int
    to_buy: int | None = None  # of those needed, what the stock does not have
    note: str = ""

    @property
    def item(self) -> str:
        return self.thing.item


def needs_between(
    old: Side,
    new: Side,
    matching: Matching,
    fates: Iterable[CableFate],
    wires: NewWires,
    plugs: Plugs,
    exchanged: Exchanged,
    crimped: Iterable[tuple[str, int | None]] = (),
) -> tuple[Need, ...]:
    """Boards and parts by the difference of the drawings; the rest by what is made, moved over, and taken out.

    `crimped`: family and gauge of each contact that a wire which stays gets anew.
    """
    all_fates = list(fates)
    more: Counter[Thing] = Counter()
    stock: Counter[Thing] = Counter()
    notes: dict[Thing, str] = {}
    for family, gauge in crimped:
        number = contact_choice(family, gauge)[0]
        contact = _thing(Purchase("contact", part_number=number, family=family, gauge_awg=gauge))
        more[contact] += 1
        notes[contact] = "none for a spoiled crimp among them"
    for line in wires.purchases:
        if line.drawn is None:
            count = line.quantity if line.item not in (_HOUSING, CUP_PLUG) else _empty_housings(new, line, all_fates)
            thing = _thing(line)
            more[thing] += count or 0
            stock[thing] += min(count or 0, line.in_stock + line.in_kits)
            if unknown := _of_unknown_length(new, line):
                pieces = thing._replace(unit=PIECES)
                more[pieces] += len(unknown)
                notes[pieces] = f"{listed(unknown, 40)}: length not known, lay a string along the path first"
            if line.item == "contact":
                notes[thing] = line.note
            if line.item in _LONG and line.note:
                said = f"{' and '.join(line.used_for)}: {line.note}"
                notes[thing] = f"{notes[thing]}; {said}" if thing in notes else said
    for fate in all_fates:
        more.update(_moved_over(new, fate))
    _by_difference(old, new, matching, exchanged.boards, more)
    _packs_by_difference(old, new, exchanged.packs | boards_that_go(old, all_fates), more)
    _parts_by_difference(old, new, matching, exchanged, more, notes)
    free: Counter[Thing] = Counter()
    for fate in all_fates:
        free.update(_freed(old, fate, plugs))
    free.update(_emptied_housings(old, new, all_fates, plugs))
    return tuple(
        [
            Need(thing, more[thing], more[thing] - stock[thing], notes.get(thing, ""))
            for thing in sorted(more, key=_by_name)
            if more[thing] > 0
        ]
        + [Need(thing, more[thing]) for thing in sorted(more, key=_by_name) if more[thing] < 0]
        + [Need(thing, -free[thing]) for thing in sorted(free, key=_by_name)]
    )


def _of_unknown_length(new: Side, line: Purchase) -> list[str]:
    """Wires that are cut from wire which is bought by its length, while theirs is not known."""
    marks = line.used_for if line.item == _WIRE else ()
    return [mark for mark in marks if mark in new.by_mark and new.by_mark[mark].length_mm is None]


def _by_name(thing: Thing) -> tuple[object, ...]:
    return (natural(thing.item), thing.length_mm or 0.0)


def _thing(line: Purchase) -> Thing:
    family = families.family(line.family).title if line.family else None
    ways = f"{line.ways}-way" if isinstance(line.ways, int) else line.ways
    gauge = f"{line.gauge_awg} AWG" if isinstance(line.gauge_awg, int) else line.gauge_awg
    said = (line.item, line.part_number, family, ways, gauge, line.colour)
    words = " ".join(str(text) for text in said if text not in (None, "", "not known", "always"))
    return Thing(
        words,
        line.unit,
        line.part_number if line.part_number not in ("", NOT_KNOWN) else None,
        line.family or None,
        line.ways if isinstance(line.ways, int) else None,
        line.gauge_awg if isinstance(line.gauge_awg, int) else None,
        line.colour or None,
        line.length_mm,
    )


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
            yield _thing(Purchase(_HOUSING, part_number=number, family=now.family, ways=now.ways))


def _by_difference(
    old: Side, new: Side, matching: Matching, others: Iterable[OtherBoard], more: Counter[Thing]
) -> None:
    for side, sign in ((old, -1), (new, 1)):
        for line in (*inline_and_splices(side.craft), *other_parts(side.craft.parts)):
            more[_thing(line)] += sign * (line.quantity or 0)
    kept = {(old.terminations[a].board, new.terminations[b].board) for a, b in matching.pairs.items()}
    renamed = {before for before, after in kept if before == after}
    for side, sign in ((old, -1), (new, 1)):
        for board in sorted(side.boards - renamed, key=natural):
            more[Thing(f"board or part {board}")] += sign
    for other in others:
        if other.was == other.name:  # else it is told by its name
            more[Thing(f"board {other.name} with the connectors drawn now, where the one there has others")] += 1


def _packs_by_difference(old: Side, new: Side, goes: Collection[str], more: Counter[Thing]) -> None:
    """A pack that goes under the name of the one that comes."""
    for board in sorted(set(goes) & new.boards, key=natural):
        was, now = _pack_words(old, board), _pack_words(new, board)
        if was != now:
            more[Thing(was)] -= 1
        more[Thing(now if was != now else f"{now}, as drawn now")] += 1


def _pack_words(side: Side, board: str) -> str:
    mine = [termination for termination in side.terminations.values() if termination.board == board]
    gives = {rail.text for termination in mine for rail in termination.gives}
    said = (side.craft.settings.battery_text, *sorted(gives), *_own_plugs(side, board))
    return ", ".join((f"board or part {board}", *filter(None, said)))


def _own_plugs(side: Side, board: str) -> list[str]:
    ends = [end for made in side.made.values() for end in made.ends if end.kind is EndKind.MATED]
    meets = {end.key: end.family for end in ends if end.family}
    mine = {meets[key] for made in side.made.values() for key in _far_ends(side, made, board) if key in meets}
    return sorted(f"with its own {families.family(family).title} plug" for family in mine)


def _far_ends(side: Side, made: MadeLead, board: str) -> Iterator[ContactKey]:
    """Where a board's own wire goes in; of two own plugs in each other, the other one."""
    own = {key for key in side.own_ends(frozenset(made.lead.ends)) if side.terminations[key[0]].board == board}
    if own:
        yield from (key for key in made.lead.ends if key not in own)


def _parts_by_difference(
    old: Side, new: Side, matching: Matching, exchanged: Exchanged, more: Counter[Thing], notes: dict[Thing, str]
) -> None:
    """A lamp or a sensor that goes under the name of the one that comes."""
    told = set[str]()  # with all of its own wires at once
    for a, b in matching.pairs.items():
        before, after = old.terminations[a], new.terminations[b]
        if before.board != after.board or not (
            before.board in exchanged.parts or exchanged.is_another_kind(before, after)
        ):
            continue
        if before.board in told:
            continue
        told.add(before.board)
        was, now = _part_words(before), _part_words(after)
        if was == now:
            was, now = f"{was}, {_how_joined(old, before)}", f"{now}, {_how_joined(new, after)}"
            notes[Thing(now)] = "or the one that is there, when this is put on its own wires, in the drawing's order"
        more[Thing(was)] -= 1
        more[Thing(now)] += 1


def _part_words(part: Termination) -> str:
    return ", ".join(filter(None, (f"board or part {part.board}", part.value)))


def _how_joined(side: Side, part: Termination) -> str:
    if part.kind is not Kind.CAPTIVE:
        family = families.family(part.family).title if part.family else ""
        return f"with a board connector {family}".rstrip() if part.takes_plug else "with solder pads"
    return ", ".join(_own_plugs(side, part.board)) or "with bare wires of its own"


def _freed(old: Side, fate: CableFate, plugs: Plugs) -> Iterator[Thing]:
    """A cable that leaves the craft whole; else its wires and housings."""
    if fate.old is not None and all(map(old.is_own, wires_of(old, fate.old))):
        return  # a part's own wires stay on it
    own = fate.old is not None and any(map(old.is_own, wires_of(old, fate.old)))
    if fate.old is not None and fate.old.mark and (fate.what == RETIRE or not fate.wires) and not own:
        yield _cable_thing(old, fate.old, plugs)
        return
    for wire in fate.gone:
        made = old.made[wire]
        if not old.is_own(wire):
            lead = made.lead
            yield Thing(
                _wire_words(made), gauge_awg=lead.gauge_awg, colour=lead.colour or None, length_mm=lead.length_mm
            )


def _goes_whole(old: Side, fate: CableFate) -> bool:
    """Whether all of the old cable goes: into the drawer, or with the part that it belongs to."""
    if fate.old is None:
        return False
    own = all(map(old.is_own, wires_of(old, fate.old)))
    return own or (bool(fate.old.mark) and (fate.what == RETIRE or not fate.wires))


def _emptied_housings(old: Side, new: Side, fates: Iterable[CableFate], plugs: Plugs) -> Iterator[Thing]:
    """Of plugs in which no wire stays, each once, whichever cables its wires go into."""
    there: set[str] = set()
    stay: set[str] = set()
    for fate in fates:
        ends = plugs.ends_of(fate.old) if fate.old is not None else set[str]()
        there |= ends
        stay |= ends if _goes_whole(old, fate) else set()
        used = {key[0] for before, _ in fate.wires for key in before} - set(fate.rehoused)
        stay |= {ref for ref, to in fate.places if ref in used and not is_replaced(old, ref, new, to)}
    for ref in sorted(there - stay, key=natural):
        was = old.terminations[ref]
        if was.kind is Kind.RECEPTACLE and was.family is not None and releasable(was.family):
            words = f"empty housing {families.family(was.family).title} {was.ways}-way"
            yield Thing(words, family=was.family, ways=was.ways)


def _cable_thing(old: Side, cable: Cable, plugs: Plugs) -> Thing:
    """Family, ways and gauge are those of all of it."""
    ends = [old.terminations[ref] if ref in plugs.ends_of(cable) else None for ref in cable.ends]
    families_of, ways = ({getattr(end, what, None) for end in ends} for what in ("family", "ways"))
    gauges = {old.by_mark[mark].gauge_awg for mark in cable.leads}
    return Thing(
        f"cable {cable.mark}: {cable_words(old, cable, plugs)}",
        family=families_of.pop() if len(families_of) == 1 else None,
        ways=ways.pop() if len(ways) == 1 else None,
        gauge_awg=gauges.pop() if len(gauges) == 1 else None,
        length_mm=_cable_length_mm(old, cable),
    )


def _wire_words(made: MadeLead) -> str:
    lead = made.lead
    said = [
        "wire",
        f"{lead.gauge_awg} AWG" if lead.gauge_awg is not None else "gauge not known",
        lead.colour or "",
        f"{lead.length_mm:g} mm" if lead.length_mm is not None else "",
    ]
    contacts = sorted(families.family(e.family).title for e in made.ends if e.kind is EndKind.CONTACT and e.family)
    ends = f", {' and '.join(contacts)} {plural(len(contacts), 'contact')} on it" if contacts else ""
    return " ".join(text for text in said if text) + ends


def cable_words(old: Side, cable: Cable, plugs: Plugs) -> str:
    """ "JST GH 6-way - JST GH 6-way, 1-6 2-5 3-4, 200 mm"."""
    ends = plugs.ends_of(cable)
    names = [_end_words(old, ref) if ref in ends else f"bare end of {old.name(ref)}" for ref in cable.ends]
    leads = [old.by_mark[mark] for mark in cable.leads]
    pairs = ""
    if len(cable.ends) == 2:
        keys = [dict(lead.ends) for lead in leads]
        pairs = " ".join(f"{at[cable.ends[0]]}-{at[cable.ends[1]]}" for at in keys if len(at) == 2)
    known = _cable_length_mm(old, cable)
    length = "length not known" if known is None else f"{known:g} mm"
    return ", ".join(text for text in (" - ".join(names), pairs, length) if text)


def _cable_length_mm(old: Side, cable: Cable) -> float | None:
    """Of its longest wire; None where that of one is not known."""
    lengths = [old.by_mark[mark].length_mm for mark in cable.leads]
    known = [length for length in lengths if length is not None]
    return max(known) if known and len(known) == len(lengths) else None


def stock_text(old: Side, fates: Iterable[CableFate]) -> str:
    """What becomes free as cables, in the words of the craft file's stock; "" when there is none."""
    entries = []
    for fate in fates:
        if fate.old is not None and fate.old.mark and (fate.what == RETIRE or not fate.wires):
            entry = _stock_entry(old, fate.old)
            entries += [entry] if entry else []
    return "\n\n".join(entries)


def _stock_entry(old: Side, cable: Cable) -> str:
    """Only of plugs with numbered cavities on both ends: the stock has no word for others."""
    ends = [old.terminations[ref] for ref in cable.ends]
    if len(ends) != 2 or any(end.kind is not Kind.RECEPTACLE or None in (end.family, end.ways) for end in ends):
        return ""
    leads = [old.by_mark[mark] for mark in cable.leads]
    keys = [dict(lead.ends) for lead in leads]
    numbers = [(at[ends[0].reference], at[ends[1].reference]) for at in keys if len(at) == 2]
    if len(numbers) < len(leads) or not all(a.isdecimal() and b.isdecimal() for a, b in numbers):
        return ""
    if any(old.made[frozenset(lead.ends)].wire_from is not WireFrom.NEW for lead in leads):
        return ""
    pairs = sorted((int(a), int(b)) for a, b in numbers)
    lengths = {lead.length_mm for lead in leads}
    lines = [
        "[[stock.cables]]",
        f'name = "left over, was {cable.mark}"',
        f'ends = ["{ends[0].family} {ends[0].ways}", "{ends[1].family} {ends[1].ways}"]',
        f"map = [{', '.join(f'[{a}, {b}]' for a, b in pairs)}]",
    ]
    if None not in lengths:
        lines.append(f"length_mm = {min(length for length in lengths if length is not None):g}")
    movable = all(releasable(end.family) for end in ends)
    return "\n".join([*lines, "count = 1", f"repinnable = {str(movable).lower()}"])


def _end_words(old: Side, reference: str) -> str:
    met = old.terminations[reference]
    family = families.family(met.family).title if met.family else "plug of unknown family"
    return family if met.ways is None else f"{family} {met.ways}-way"
