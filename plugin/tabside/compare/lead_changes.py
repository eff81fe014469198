"""What became of each lead: kept, made of something else, moved to another contact, taken out, or new."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from tabside.compare.change import ADDED, CHANGED, MOVED, REMOVED, Change
from tabside.compare.matching import Matching
from tabside.compare.side import LeadFacts, Side
from tabside.model.craft import ContactKey
from tabside.model.natural import natural

Ends = frozenset[ContactKey]


class LeadFates(NamedTuple):
    """All leads of both crafts, by what happens to them; old ends are old contacts, new ends new ones."""

    kept: tuple[tuple[Ends, Ends], ...]  # old, new
    altered: tuple[tuple[Ends, Ends], ...]  # same contacts, another gauge, colour or length
    moved: tuple[tuple[Ends, Ends], ...]  # one end stays
    removed: tuple[Ends, ...]
    added: tuple[Ends, ...]

    @property
    def touched(self) -> tuple[Ends, ...]:
        """New leads that must be measured again."""
        return (*(new for _, new in self.altered), *(new for _, new in self.moved), *self.added)


def fates_of_leads(old: Side, new: Side, matching: Matching) -> LeadFates:
    """Each old lead and each new lead once."""
    mapped = {ends: matching.ends(ends) for ends in old.leads}
    stays = {ends: now for ends, now in mapped.items() if now in new.leads and now is not None}
    kept: list[tuple[Ends, Ends]] = []
    altered: list[tuple[Ends, Ends]] = []
    for ends, now in stays.items():
        (kept if _alike(old.facts(ends), new.facts(now)) else altered).append((ends, now))
    left_old = sorted((ends for ends in old.leads if ends not in stays), key=lambda ends: _order(old, ends))
    left_new = sorted(set(new.leads) - set(stays.values()), key=lambda ends: _order(new, ends))
    kept_choice, left_old, left_new = _same_nets(old, new, matching, left_old, left_new)
    moved = _moved(old, new, matching, left_old, left_new)
    gone = {ends for ends, _ in moved}
    come = {ends for _, ends in moved}
    return LeadFates(
        (*kept, *kept_choice),
        tuple(altered),
        tuple(moved),
        tuple(ends for ends in left_old if ends not in gone),
        tuple(ends for ends in left_new if ends not in come),
    )


def changes_of_leads(old: Side, new: Side, fates: LeadFates) -> Iterator[Change]:
    """A change for each lead that does not stay as it is, in the order of the new drawing, what goes first."""
    for ends in fates.removed:
        bench = "Take it out of both ends, or insulate what stays."
        yield Change(REMOVED, "lead", old.lead_name(ends), _words(old, ends), None, bench)
    for before, after in fates.moved:
        yield Change(
            MOVED, "lead", new.lead_name(after), old.lead_name(before), new.lead_name(after), _move_words(new, after)
        )
    for before, after in fates.altered:
        yield Change(
            CHANGED, "lead", new.lead_name(after), _words(old, before), _words(new, after),
            _alter_words(old.facts(before), new.facts(after)),
        )  # fmt: skip
    for ends in fates.added:
        bench = "Make it, and measure it from end to end."
        yield Change(ADDED, "lead", new.lead_name(ends), None, _words(new, ends), bench)


def _alike(a: LeadFacts, b: LeadFacts) -> bool:
    """A length that differs by less than a tenth of a millimetre is the same."""
    lengths = (a.length_mm, b.length_mm)
    same_length = lengths[0] == lengths[1] or (None not in lengths and abs((lengths[0] or 0) - (lengths[1] or 0)) < 0.1)
    return a.gauge_awg == b.gauge_awg and a.colour == b.colour and same_length


def _same_nets(
    old: Side, new: Side, matching: Matching, left_old: list[Ends], left_new: list[Ends]
) -> tuple[list[tuple[Ends, Ends]], list[Ends], list[Ends]]:
    """Leads that the drawing leaves to choice, on a net of the same contacts, are the same build.

    Which of several equal leads joins a net, and which of two ground contacts of one plug serves which partner, is
    decided by the order of references, which say nothing of the wiring.
    """
    nets_old, nets_new = _nets(old), _nets(new)
    free, kept, rest = list(left_new), [], []
    for ends in left_old:
        lead = old.leads[ends]
        members = {matching.key(key) for key in nets_old[lead.net_id]}
        link = {matching.pairs.get(reference) for reference in lead.link}
        for now in free:
            there = new.leads[now]
            same_net = members == nets_new[there.net_id]
            same_link = link == set(there.link) and set(map(matching.key, ends)) <= nets_new[there.net_id]
            if _left_to_choice(lead.how, there.how, same_net, same_link) and _alike(old.facts(ends), new.facts(now)):
                free.remove(now)
                kept.append((ends, now))
                break
        else:
            rest.append(ends)
    return kept, rest, free


def _left_to_choice(was: str, now: str, same_net: bool, same_link: bool) -> bool:
    """Neither is a line of its own in the drawing: equal contacts of one link, or chosen among equals on one net."""
    if not {was, now} <= {"beside", "joined", "chosen"}:
        return False
    return same_link or (same_net and "chosen" in (was, now))


def _nets(side: Side) -> dict[int, frozenset[ContactKey]]:
    members: dict[int, set[ContactKey]] = {}
    for termination in side.terminations.values():
        for contact in termination.contacts:
            members.setdefault(contact.net_id, set()).add(contact.key)
    return {net: frozenset(keys) for net, keys in members.items()}


def _moved(
    old: Side, new: Side, matching: Matching, left_old: Iterable[Ends], left_new: list[Ends]
) -> list[tuple[Ends, Ends]]:
    """Leads of which one end stays: those within the same two terminations first."""
    free = list(left_new)
    moved: list[tuple[Ends, Ends]] = []
    for same_link in (True, False):
        for ends in left_old:
            if any(ends == before for before, _ in moved):
                continue
            ours = {key for key in map(matching.key, ends) if key is not None}
            link = {key[0] for key in ours}
            found = [now for now in free if len(ours & now) == 1 and (not same_link or {key[0] for key in now} == link)]
            if found:
                free.remove(found[0])
                moved.append((ends, found[0]))
    return moved


def _order(side: Side, ends: Ends) -> tuple[object, ...]:
    return tuple((natural(reference), natural(contact)) for reference, contact in side.leads[ends].ends)


def _words(side: Side, ends: Ends) -> str:
    facts = side.facts(ends)
    length = None if facts.length_mm is None else f"{facts.length_mm:g} mm"
    said = [
        f"{facts.gauge_awg} AWG" if facts.gauge_awg is not None else "",
        facts.colour or "",
        length or "",
    ]
    return ", ".join(each for each in said if each) or "gauge, colour and length not known"


def _move_words(new: Side, after: Ends) -> str:
    ends = new.leads[after].ends
    plugs = [key for key in ends if new.terminations[key[0]].takes_plug]
    if plugs:
        return "Move the contact to its new cavity, or make a new wire; test it from end to end."
    return "Unsolder the end that moves, solder it in its new place; measure it from end to end."


def _alter_words(before: LeadFacts, after: LeadFacts) -> str:
    if before.gauge_awg != after.gauge_awg and after.gauge_awg is not None:
        return f"Make it again of {after.gauge_awg} AWG wire."
    if before.length_mm is not None and after.length_mm is not None and before.length_mm != after.length_mm:
        if after.length_mm > before.length_mm + 0.1:
            return f"Too short: make it again, {after.length_mm:g} mm."
        if after.length_mm < before.length_mm - 0.1:
            spare = before.length_mm - after.length_mm
            return f"Shorten it to {after.length_mm:g} mm at a soldered end, or stow {spare:g} mm."
    return "Nothing to do on the wire itself; correct its label."
