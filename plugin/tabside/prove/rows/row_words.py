"""Rows of the continuity sheet in a builder's words."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from tabside.analysis.joined.joints import letters_of
from tabside.analysis.joined.lead_ends import EndKind
from tabside.facts.wire import gauge_text
from tabside.model.craft import ContactKey
from tabside.prove.bench.grounds import known_ground, named_ground
from tabside.prove.bench.world import SWITCHES, PlaceKind, World
from tabside.prove.measurement import At, End, Measurement, RowKind, Test, When, with_id
from tabside.prove.rows.candidates import Candidate
from tabside.prove.rows.limits import Limit, below_words, limit_of
from tabside.wiring.terminations.part_kinds import TAKEN_OUT
from tabside.words.contacts import listed, termination_name
from tabside.words.lengths import tenths_up

BEEP = "continuity (beep)"
HOLD = "continuity (beep), hold 5 s"
DC_VOLTS = "DC volts, red lead in the V jack"
EYE = "by eye"
NO_GROUND = "leave this step open and look at contact 1 twice"
CHARGING = "a beep that ends is a capacitor charging: hold until it stops"
_TESTS = {
    When.LOOSE: Test.WIRE,
    When.SPLICED: Test.THROUGH,
    When.PLUGGED: Test.GROUND,
    When.SOLDERED: Test.SOLDERED,
}


class Words:
    """Turns rows that were chosen into rows that can be read."""

    def __init__(self, world: World, *, soldered: Collection[ContactKey] = (), rebuilt: bool = False) -> None:
        """`rebuilt`: the boards are in the craft; `soldered`: there, bare ends that stay at their joints."""
        self._world = world
        self._craft = world.craft
        self._soldered, self._rebuilt = soldered, rebuilt

    def row(self, candidate: Candidate) -> Measurement:
        ground = candidate.where.at is At.GROUND
        limit = self._limit(candidate)
        return with_id(
            Measurement(
                group=candidate.group,
                test=Test.GROUND if ground else _TESTS[candidate.when],
                leads=candidate.leads,
                start=self._start(candidate),
                end=self._visits(candidate),
                expect=self._expect(candidate, limit),
                limit_ohm=limit.ohm if limit else None,
                has_limit=limit is not None,
                notes=self._notes(candidate, limit),
                kind=RowKind.BEEP,
                when=candidate.when,
                cable=candidate.cable,
                plugged=candidate.plugged,
                cups=self._cups(candidate),
                where=candidate.where,
                joined=candidate.joined,
                open=candidate.open,
                meter=HOLD if ground else BEEP,
            ),
            self._world.ends,
        )

    def again(self, row: Measurement) -> Measurement:
        """A row of the sheet, for a craft that is rebuilt: a joint is touched where an end is not bare."""
        wanted = row.when is When.PLUGGED or any(map(self._is_joint, row.ends))
        if not self._rebuilt or not wanted or row.kind is not RowKind.BEEP:
            return row
        candidate = Candidate(row.when, row.group, row.cable, row.plugged, row.where, row.joined, row.open, row.leads)
        return self.row(candidate)

    def _is_joint(self, end: End) -> bool:
        return end.at is At.BARE and (end.termination, end.contact) in self._soldered

    def _cups(self, candidate: Candidate) -> tuple[str, ...]:
        """Plugs with solder cups that are touched: no probe finds a contact there before its wire is in."""
        ends = (candidate.where, *candidate.joined, *candidate.open)
        touched = (end.termination for end in ends if end.at is At.CONTACT and end.lead is not None)
        return tuple(dict.fromkeys(place for place in touched if place in self._world.with_cups))

    def place(self, end: End, measured: Collection[str] = ()) -> str:
        """Where a probe goes: "pilot/J3:6 (GND)", "bare end of W2 for light/P2:1 (LED+)".

        `measured`: places whose wires are measured: no pad of theirs is a known ground.
        """
        if end.at is At.GROUND:
            return known_ground(self._world, end.board, (end.termination, *measured))
        contact = self.contact(end.termination, end.contact)
        if self._is_joint(end):
            return f"the joint of {end.lead} at {contact}"
        if end.at is At.BARE:
            return f"bare end of {end.lead} for {contact}"
        if end.lead is not None and self._mates(end):
            return f"plug for {contact}, not on it"
        return contact

    def contact(self, reference: str, number: str) -> str:
        return f"{termination_name(self._craft, reference)}:{self.short(reference, number)}"

    def short(self, reference: str, number: str) -> str:
        """ "6 (GND)"."""
        labels = [contact.label for contact in self._craft.terminations[reference].contacts if contact.number == number]
        return f"{number} ({labels[0]})" if labels and labels[0] else number

    def _mates(self, end: End) -> bool:
        """A plug for a part's own one: its name must not send a probe to the part."""
        return end.lead is not None and any(
            wire_end.kind is EndKind.MATE and wire_end.key == (end.termination, end.contact)
            for wire_end in self._world.made[end.lead].ends
        )

    def _start(self, candidate: Candidate) -> str:
        place = self.place(candidate.where, self._measured(candidate))
        if candidate.when is not When.PLUGGED:
            return place
        plugged = termination_name(self._craft, candidate.plugged[0])
        board = candidate.where.board
        alone = f"no other cable {'plugged into' if self._rebuilt else 'on'} {board}"
        return f"{place}, {plugged} plugged in, {alone}"

    def _visits(self, candidate: Candidate) -> str:
        """The ends that the other probe visits: a whole plug by its name."""
        by_place: dict[tuple[str, At], list[End]] = {}
        for end in (*candidate.joined, *candidate.open):
            by_place.setdefault((end.termination if end.at is not At.GROUND else end.board, end.at), []).append(end)
        texts = []
        for ends in by_place.values():
            loose = candidate.where.at is At.GROUND and self._in_plug(ends[0])
            if len(ends) == 1 or ends[0].at is At.GROUND:  # one ground of a board stands for all that wires reach
                place = self.place(ends[0], self._measured(candidate))
                texts.append(f"on the loose plug for {place}" if loose else f"on {place}")
                continue
            name = termination_name(self._craft, ends[0].termination)
            if any(map(self._is_joint, ends)):
                texts.append(f"on each joint at {name}")
            elif ends[0].at is At.BARE:
                texts.append(f"on each bare end for {name}")
            elif self._mates(ends[0]):
                texts.append(f"along the plug for {name}, not on it")
            elif loose:
                texts.append(f"along the loose plug for {name}")
            else:
                texts.append(f"{'on' if candidate.where.at is At.GROUND else 'along'} {name}")
        return listed(texts, 8)

    def _measured(self, candidate: Candidate) -> set[str]:
        """Where the wires of this row end."""
        marks = {*candidate.leads, *(end.lead for end in (*candidate.joined, *candidate.open) if end.lead)}
        return {key[0] for mark in marks for key in self._world.ends[mark]}

    def _in_plug(self, end: End) -> bool:
        return self._world.probed(end).kind is PlaceKind.CAVITY and not self._mates(end)

    def _expect(self, candidate: Candidate, limit: Limit | None) -> str:
        below = below_words(limit.ohm) if limit else ""
        joined = self._shorts(candidate, candidate.joined)
        if not candidate.open:
            return (f"beeps{below}" if len(candidate.joined) == 1 else f"all beep: {joined}") if joined else ""
        if candidate.where.at is At.GROUND:
            beeps = f"{joined} {_beep(candidate)}; " if joined else ""
            return f"{beeps}{self._shorts(candidate, candidate.open)} no steady beep"
        ends = (candidate.where, *candidate.joined, *candidate.open)
        if joints := sorted({end.termination for end in ends if self._is_joint(end)}):
            names = [termination_name(self._craft, reference) for reference in joints]
            itself = f"unless {listed(names)} itself connects them"
            first = f"{joined} {_beep(candidate)}{below}; " if joined else ""
            return f"{first}{'no other' if joined else 'no beep'}, {itself}"
        if not joined:
            return "no beep"
        return f"only {joined} {_beep(candidate)}{below}"

    def _shorts(self, candidate: Candidate, ends: Sequence[End]) -> str:
        """Contacts by number and name; with their plug where more than one is visited."""
        places = {(end.termination, end.at) for end in ends}
        if len(places) == 1 and ends[0].at is not At.GROUND:
            return listed([self.short(end.termination, end.contact) for end in ends], 40)
        measured = self._measured(candidate)
        named = [f"the known ground of {e.board}" if e.at is At.GROUND else self.place(e, measured) for e in ends]
        return listed(named, 40) if ends else ""

    def _limit(self, candidate: Candidate) -> Limit | None:
        """Where one wire lies between the probes."""
        if len(candidate.joined) != 1 or candidate.where.lead is None:
            return None
        lead = candidate.where.lead
        return limit_of(self._world.made[lead]) if candidate.joined[0].lead == lead else None

    def _notes(self, candidate: Candidate, limit: Limit | None) -> tuple[str, ...]:
        notes: list[str] = []
        if limit and limit.ohm is not None and candidate.where.lead:
            lead = self._world.made[candidate.where.lead].lead
            notes.append(f"{gauge_text(lead.gauge_awg or 0)} AWG, {tenths_up(lead.length_mm or 0):g} mm")
        notes += limit.notes if limit else ()
        if candidate.when is not When.LOOSE:
            notes += self._on(candidate.plugged)
        bare = [end for end in (*candidate.joined, *candidate.open) if end.at is At.BARE and not self._is_joint(end)]
        here = candidate.where.at is At.BARE and not self._is_joint(candidate.where)
        if candidate.when is When.LOOSE and (here or any(end in candidate.joined for end in bare)):
            notes.append("before its bare ends are soldered")
        if candidate.when is When.PLUGGED and bare:
            notes.append("before the bare ends are soldered")
        if candidate.where.at is At.GROUND and candidate.open:
            notes.append(CHARGING)
        if candidate.where.at is At.GROUND and not self._is_named(candidate):
            notes.append(f"if you find none on {candidate.where.board}, {NO_GROUND}")
        return tuple(notes)

    def _is_named(self, candidate: Candidate) -> bool:
        but = (candidate.where.termination, *self._measured(candidate))
        return bool(named_ground(self._world, candidate.where.board, but))

    def _on(self, plugged: Iterable[str]) -> list[str]:
        """How the fuses and switches stand through which the meter goes."""
        letters = {letters_of(reference) for reference in plugged if self._world.passes_on(reference)}
        on = ["fuses in"] if letters & TAKEN_OUT else []
        on += ["switches on"] if letters & SWITCHES else []
        return [", ".join(on)] if on else []


def row_words(row: Measurement) -> str:
    """One sentence, for a sheet on which the row stands between the steps."""
    marks = f"{' '.join(row.leads)}: " if row.leads else ""
    return f"{marks}{row.words}"


def _beep(candidate: Candidate) -> str:
    return "beeps" if len(candidate.joined) == 1 else "beep"
