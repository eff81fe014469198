"""What becomes free: cables that leave the craft whole, else their wires and emptied housings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tabside.analysis.joined.lead_ends import EndKind, MadeLead, WireFrom
from tabside.compare.fates.cable_fate import RETIRE, CableFate, wires_of
from tabside.compare.reuse.wires import is_replaced
from tabside.compare.side import Side
from tabside.compare.work.parts.thing import Thing
from tabside.compare.work.plugs import Plugs
from tabside.facts import families
from tabside.make.needs.cable_jobs import releasable
from tabside.model.craft import Cable, Kind
from tabside.model.natural import natural
from tabside.words.contacts import plural


def freed_by(old: Side, fate: CableFate, plugs: Plugs) -> Iterator[Thing]:
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


def emptied_housings(old: Side, new: Side, fates: Iterable[CableFate], plugs: Plugs) -> Iterator[Thing]:
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
    crimped = (end.family for end in made.ends if end.kind is EndKind.CONTACT and end.family)
    contacts = sorted(families.family(family).title for family in crimped)
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
