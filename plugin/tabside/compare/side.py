"""One side of a comparison: a craft as a graph of terminations and leads, without names that do not matter."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cached_property
from typing import NamedTuple

from tabside.analysis.joined.joints import letters_of
from tabside.analysis.joined.lead_ends import EndKind, MadeLead, WireFrom
from tabside.analysis.joined.part_plugs import packs
from tabside.analysis.judgement import Judgement
from tabside.make.needs.gauges import with_gauges
from tabside.make.needs.live_leads import fuses, is_minus, live_leads
from tabside.model.craft import ContactKey, Craft, Kind, Lead, Termination
from tabside.model.natural import natural

_ONE_PART = (("F", "FH", "PF"), ("SW", "S"))  # letters that drawings use for one kind of part
IN_A_PLUG = (EndKind.CONTACT, EndKind.CUP, EndKind.SLOT, EndKind.MADE, EndKind.PLUG, EndKind.MATE, EndKind.MATED)


class LeadFacts(NamedTuple):
    """What a lead is made of; None is "not known"."""

    gauge_awg: int | None
    colour: str | None
    length_mm: float | None


class Side:
    """A craft, looked up from both ends of its leads."""

    def __init__(self, judgement: Judgement) -> None:
        craft = judgement.craft
        self.judgement = judgement
        self.craft: Craft = craft
        self.terminations: Mapping[str, Termination] = craft.terminations
        self.leads: dict[frozenset[ContactKey], Lead] = {frozenset(lead.ends): lead for lead in craft.leads}
        self.by_mark: dict[str, Lead] = {lead.mark: lead for lead in craft.leads}
        self.leads_at: dict[str, list[tuple[str, ContactKey]]] = {reference: [] for reference in self.terminations}
        self.boards = {self.board(reference) for reference in self.terminations} - {""}  # that the drawing names
        for lead in craft.leads:
            for here, there in (lead.ends, lead.ends[::-1]):
                self.leads_at[here[0]].append((here[1], there))

    @cached_property
    def places_on(self) -> Mapping[str, tuple[str, ...]]:
        """The terminations of each board that the drawing names, in natural order."""
        found: dict[str, list[str]] = {board: [] for board in self.boards}
        for reference in sorted(self.terminations, key=natural):
            if board := self.board(reference):
                found[board].append(reference)
        return {board: tuple(references) for board, references in found.items()}

    @property
    def described(self) -> str:
        """What tells this drawing from another one."""
        craft = self.craft
        return f"{craft.name}, revision {craft.revision or 'not stated'}, drawing {craft.drawing_hash or 'export'}"

    @cached_property
    def made(self) -> Mapping[frozenset[ContactKey], MadeLead]:
        """How the ends of each lead are made."""
        return {frozenset(made.lead.ends): made for made in self.judgement.made_leads}

    @cached_property
    def made_by_mark(self) -> Mapping[str, MadeLead]:
        """The same by the lead's number."""
        return {made.lead.mark: made for made in self.made.values()}

    def marks_at(self, reference: str) -> tuple[str, ...]:
        """The numbers of the leads that meet it."""
        return tuple(dict.fromkeys(self.leads[wire].mark for wire in self.wires_at(reference)))

    def made_at(self, reference: str) -> tuple[MadeLead, ...]:
        """How the ends of the leads that meet it are made."""
        return tuple(self.made_by_mark[mark] for mark in self.marks_at(reference))

    def wires_at(self, reference: str) -> list[frozenset[ContactKey]]:
        """Each wire by its two ends."""
        return [frozenset(((reference, number), far)) for number, far in self.leads_at[reference]]

    @cached_property
    def live(self) -> Mapping[str, str]:
        """The packs' own wires: mark -> pack."""
        return live_leads(self.craft, self.made.values())

    def reached(self, marks: Iterable[str]) -> frozenset[str]:
        """The wires from these on: through splices and in-line parts, not through plugs and boards."""
        waiting, found = list(marks), set[str]()
        while waiting:
            mark = waiting.pop()
            if mark not in found:
                found.add(mark)
                for reference, _ in self.by_mark[mark].ends:
                    waiting += self._joined_at.get(reference, ())
        return frozenset(found)

    @cached_property
    def _joined_at(self) -> Mapping[str, list[str]]:
        """The wires at each splice and in-line part."""
        at: dict[str, list[str]] = {}
        for lead in self.craft.leads:
            for reference, _ in lead.ends:
                if is_loose(self.terminations[reference]):
                    at.setdefault(reference, []).append(lead.mark)
        return at

    @cached_property
    def fed_by(self) -> Mapping[str, frozenset[str]]:
        """Each wire that packs reach -> the packs' own wires it hangs on."""
        found: dict[str, set[str]] = {}
        for own in self.live:
            for mark in self.reached((own,)):
                found.setdefault(mark, set()).add(own)
        return {mark: frozenset((mark,) if mark in self.live else owns) for mark, owns in found.items()}

    def is_minus(self, mark: str) -> bool:
        """A pack's own wire, and what goes on from it alone, by what it is at the pack: never by a pad's name."""
        return all(is_minus(self.craft, self.made_by_mark[own]) for own in self.fed_by.get(mark) or (mark,))

    @cached_property
    def fuses(self) -> tuple[str, ...]:
        """In-line fuses and fuse holders."""
        return fuses(self.craft, self.terminations)

    @cached_property
    def packs(self) -> frozenset[str]:
        """Boards that are batteries, or give a supply and take none."""
        return frozenset(packs(self.craft))

    @cached_property
    def nets(self) -> Mapping[int, frozenset[ContactKey]]:
        """The contacts on each net."""
        members: dict[int, set[ContactKey]] = {}
        for termination in self.terminations.values():
            for contact in termination.contacts:
                members.setdefault(contact.net_id, set()).add(contact.key)
        return {net: frozenset(keys) for net, keys in members.items()}

    def gauge_worked_out(self, ends: frozenset[ContactKey]) -> int | None:
        """The gauge that the plan finds for a wire without one, by what it carries; None where it finds none."""
        return self._worked_out.get(self.leads[ends].mark)

    @cached_property
    def _worked_out(self) -> Mapping[str, int | None]:
        return {lead.mark: lead.gauge_awg for lead in with_gauges(self.judgement).leads}

    def is_own(self, ends: frozenset[ContactKey]) -> bool:
        """Whether the wire is a part's own: it comes with the part, and nobody makes it."""
        return self.made[ends].wire_from is WireFrom.CAPTIVE

    def own_ends(self, ends: frozenset[ContactKey]) -> set[ContactKey]:
        """Where the wire comes out of a part that brings it along; of two own plugs in each other, out of both."""
        made = self.made[ends]
        own = {end.key for end in made.ends if end.kind is EndKind.OWN}
        return own or {end.key for end in made.ends if end.kind is EndKind.MATED and self._brings(end.key[0])}

    def _brings(self, reference: str) -> bool:
        return self.terminations[reference].kind is Kind.CAPTIVE

    def is_of_pack(self, ends: frozenset[ContactKey]) -> bool:
        """Whether the wire is a pack's own."""
        return any(self.terminations[reference].board in self.packs for reference, _ in self.own_ends(ends))

    def is_in_own_plug(self, ends: frozenset[ContactKey]) -> bool:
        """Whether it sits in a plug that the part brings along and that goes in as it is."""
        return any(end.kind is EndKind.MATED for end in self.made[ends].ends)

    def plugged(self, marks: Iterable[str]) -> set[str]:
        """Terminations into which a plug of these leads goes."""
        wires = (self.made_by_mark[mark] for mark in marks)
        return {end.key[0] for made in wires for end in made.ends if end.kind in IN_A_PLUG}

    def facts(self, ends: frozenset[ContactKey]) -> LeadFacts:
        lead = self.leads[ends]
        return LeadFacts(lead.gauge_awg, lead.colour, lead.length_mm)

    def name(self, reference: str) -> str:
        """As a person finds it: "pilot/J3"; parts of no board by their reference alone."""
        termination = self.terminations[reference]
        return reference if is_loose(termination) else f"{termination.board}/{reference}"

    def contact_name(self, key: ContactKey) -> str:
        label = self.label(key)
        return f"{self.name(key[0])}:{key[1]}" + (f" ({label})" if label else "")

    def label(self, key: ContactKey) -> str:
        found = [contact.label for contact in self.terminations[key[0]].contacts if contact.number == key[1]]
        return found[0] if found else ""

    def lead_name(self, ends: frozenset[ContactKey]) -> str:
        return " - ".join(self.contact_name(key) for key in self.leads[ends].ends)

    def board(self, reference: str) -> str:
        """The board, "" for a part of no board and for a board that only its reference names."""
        termination = self.terminations[reference]
        return termination.board if termination.board_stated and not is_loose(termination) else ""


def is_loose(termination: Termination) -> bool:
    return termination.kind in (Kind.INLINE, Kind.SPLICE)


def shape(termination: Termination) -> tuple[object, ...]:
    """What a termination is, apart from its reference and its board."""
    signals = tuple((contact.number, contact.label) for contact in termination.contacts)
    part = (_part_class(termination), termination.value) if is_loose(termination) else ()
    return (termination.kind.value, termination.family or "", termination.ways or 0, signals, part)


def another_board(old: Side, new: Side, reference: str, now: str) -> bool:
    """Whether it is one symbol that the drawing has put on another board; one whose name alone has changed is none."""
    before, after = old.board(reference), new.board(now)
    return bool(before and after) and before != after and (after in old.boards or before in new.boards)


def another_part(before: Termination, after: Termination) -> bool:
    """Whether one is a splice, a fuse or a switch and the other one is something else."""
    if not is_loose(before) and not is_loose(after):
        return False
    return before.kind is not after.kind or _part_class(before) != _part_class(after)


def _part_class(termination: Termination) -> str:
    """By the letters of its reference; a fuse and its holder are one."""
    letters = letters_of(termination.reference) if termination.kind is Kind.INLINE else ""
    return next((letters_alike[0] for letters_alike in _ONE_PART if letters in letters_alike), letters)
