"""Which leads of a cable must not touch each other, with as many measurements as it has leads, not as it has pairs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from tabside.analysis.joints import letters_of
from tabside.analysis.lead_ends import MadeLead
from tabside.model.craft import Cable, Contact, Kind, Termination
from tabside.model.natural import natural
from tabside.prove.measurement import BARE, Bench, Measurement, Test

_CAN_BE_OPENED = frozenset(("F", "FH", "CB", "SW", "S", "JP"))


def must_be_open(bench: Bench, group: str, cable: Cable, leads: Sequence[MadeLead]) -> Iterator[Measurement]:
    """Neighbouring cavities of each plug, and its supplies against its grounds; each pair of leads once in a cable.

    Leads of one net are left out: it harms nothing when they touch.  So are leads of one captive part, which a meter
    sees joined inside it.
    """
    leads = [made for made in leads if not bench.begins_inside(made.lead.mark)]
    bare = any(end.kind in BARE for made in leads for end in made.ends)
    done: set[frozenset[str]] = set()
    for reference in cable.ends:
        termination = bench.craft.terminations[reference]
        if not termination.takes_plug:
            continue
        cavities = _cavities(termination, leads)
        for why, a, b in (*_neighbours(termination, cavities), *_supplies_to_ground(termination, cavities)):
            marks = frozenset((cavities[a], cavities[b]))
            if marks in done or len(marks) < 2:
                continue
            done.add(marks)
            expect = _expected(bench, termination.contact(a), termination.contact(b))
            if expect:
                start, end = (bench.probe(cavities[number], (reference, number)) for number in (a, b))
                note = f"{why}; before bare ends are soldered" if bare else why
                yield Measurement(group, Test.OPEN, (cavities[a], cavities[b]), start, end, expect, note=note)


def _cavities(termination: Termination, leads: Sequence[MadeLead]) -> dict[str, str]:
    """Contact -> mark of the lead in it, in contact order."""
    found = {end.key[1]: made.lead.mark for made in leads for end in made.ends if end.key[0] == termination.reference}
    return {number: found[number] for number in sorted(found, key=natural)}


def _neighbours(termination: Termination, cavities: dict[str, str]) -> Iterator[tuple[str, str, str]]:
    """Each cavity with a lead and the next one that has one.

    How a plug of two rows is numbered is not known: along the rows, or to and fro.  Both kinds are listed.
    """
    numbers = list(cavities)
    for a, b in pairwise(numbers):
        yield ("neighbours", a, b)
    if termination.rows > 1:
        across = {2, (termination.ways or 0) // 2}
        for a in numbers:
            for step in sorted(across):
                b = str(int(a) + step) if a.isascii() and a.isdecimal() else ""
                if step > 1 and b in cavities:
                    yield ("may be neighbours: two rows", a, b)


def _supplies_to_ground(termination: Termination, cavities: dict[str, str]) -> Iterator[tuple[str, str, str]]:
    """Each supply against the first ground, and each ground against the first supply."""
    supplies = [number for number in cavities if termination.contact(number).role.is_supply]
    grounds = [number for number in cavities if termination.contact(number).role.is_ground]
    if supplies and grounds:
        for number in supplies:
            yield ("supply and ground", number, grounds[0])
        for number in grounds[1:]:
            yield ("supply and ground", supplies[0], number)


def _expected(bench: Bench, a: Contact, b: Contact) -> str:
    """ "" when it harms nothing that the two touch, or when a part that cannot be opened joins them."""
    if a.net_id == b.net_id:
        return ""
    if bench.joined_by_parts[a.net_id] != bench.joined_by_parts[b.net_id]:
        return "does not sound"
    between = [part for part in _parts(bench) if {c.net_id for c in part.contacts} == {a.net_id, b.net_id}]
    if between and all(letters_of(part.reference) in _CAN_BE_OPENED for part in between):
        names = " and ".join(part.reference for part in between)
        return f"does not sound while {names} {'is' if len(between) == 1 else 'are'} out or off"
    return ""


def _parts(bench: Bench) -> Iterator[Termination]:
    return (each for each in bench.craft.terminations.values() if each.kind is Kind.INLINE)
