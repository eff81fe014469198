"""Rows in volts at packs: no other row comes near one."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from functools import cached_property
from typing import NamedTuple

from tabside.analysis.joined.joints import letters_of
from tabside.analysis.joined.lead_ends import EndKind
from tabside.analysis.power_ways import PowerWays
from tabside.model.craft import Contact, ContactKey, Kind, Termination
from tabside.model.natural import natural
from tabside.prove.bench.switching import switch_words
from tabside.prove.bench.world import BARE, SWITCHES
from tabside.prove.measurement import At, End, Measurement, RowKind, Test, When, probed, with_id
from tabside.prove.rows.pack_ends import PackEnds, Range
from tabside.prove.rows.row_words import DC_VOLTS, Words
from tabside.wiring.terminations.part_kinds import TAKEN_OUT
from tabside.words.cautions import PACKS_WITHIN
from tabside.words.contacts import listed

BEFORE_LAST = "before this last wire is soldered, all others of it taped"
_ON_BARE_LEADS = (
    "at the ends of the pack's own leads, before either is joined, each bared for this alone and taped again"
)
_NO_VOLTS = "0 V, else it is bypassed"
_ALONE = "never ohms on a pack; never let the probes touch; never in the A jack"


class _Probe(NamedTuple):
    """Where it goes, and that in words."""

    end: End
    words: str


class _Measured(NamedTuple):
    """Where both probes are, and what is plugged in or soldered meanwhile."""

    red: _Probe
    black: _Probe
    plugged: tuple[str, ...] = ()


class PackVolts:
    def __init__(self, ends: PackEnds, words: Words) -> None:
        self._ends = ends
        self._world = ends.world
        self._craft = ends.craft
        self._words = words
        self._ways = PowerWays(ends.craft, ends.world.made.values())

    def rows(self) -> Iterator[Measurement]:
        """At each place where a pack's plus and minus come out, before it meets a board; each pair of places once."""
        told: set[tuple[End, ...]] = set()
        for row in self._all_volts():
            if row.ends not in told:
                told.add(row.ends)
                yield row

    def _all_volts(self) -> Iterator[Measurement]:
        reds: list[tuple[Termination, Contact, End]] = []  # of packs whose other pole meets a pack: they are in series
        blacks: list[End] = []
        for pack, plus, minus in self._ends.packs:
            plus_ends, minus_ends = self._ends.ends_of(plus), self._ends.ends_of(minus)
            if not plus_ends or not minus_ends:
                reds += [(pack, plus, end) for end in plus_ends]
                blacks += minus_ends
                if pack.family is not None or self._ends.is_wired(pack):
                    yield self._on_its_own(pack, plus, minus)
                continue
            for red, black in self._pairs(plus_ends, minus_ends):
                yield self._volts_row(pack, self._alone(plus, red, plus_ends), black, self._ends.volts_of(pack))
        for pack, plus, red in reds:
            for black in blacks:
                if black.termination == red.termination:
                    yield self._volts_row(
                        pack, self._alone(plus, red, self._ends.ends_of(plus)), black, self._ends.volts_in_series()
                    )

    def _alone(self, plus: Contact, red: End, reds: Sequence[End]) -> End:
        """The end at which the pack comes last: of its own wire, where other loads or packs hang on this one's.

        `reds`: all ends of the plus.
        """
        late = [end for end in reds if end.at is At.BARE and not self._is_shared(end, [end])]
        if not self._is_shared(red, late):
            return red
        for mark, made in self._world.made.items():
            far = [end for end in made.ends if end.key != plus.key and end.kind in BARE]
            if far and any(end.key == plus.key and end.kind is EndKind.OWN for end in made.ends):
                board = self._craft.terminations[far[0].key[0]].board
                return End(At.BARE, board, *far[0].key, mark)
        return red

    def _is_shared(self, red: End, late: Sequence[End]) -> bool:
        """Whether volts that come to this end are at a load as well, or may come from one of several packs.

        `late`: ends that are soldered after that.
        """
        before = self._ways.all_joints - {(end.lead, end.termination) for end in (red, *late) if end.lead}
        through = self._ways.gates_to(red.lead, before) if red.lead else {}
        back = self._ways.gates_to(red.lead, before, self._grounds) if red.lead else {}  # and to a ground
        closed = {gate for gates in (*through.values(), *back.values()) for gate in gates}
        one_way = red.at is At.CONTACT or len(set(map(tuple, through.values()))) < 2
        on = self._ways.on(before, set(self._ways.fuses) - closed)
        return not one_way or any(each.pack in through for each in on)

    @cached_property
    def _grounds(self) -> list[ContactKey]:
        """Of boards and parts, not of packs."""
        boards = (part for part in self._craft.terminations.values() if not self._world.is_pack(part.reference))
        return [contact.key for part in boards for contact in part.contacts if contact.role.is_ground]

    def _pairs(self, reds: Sequence[End], blacks: Sequence[End]) -> Iterator[tuple[End, End]]:
        """Each red end once with a black one of its own plug or board, and each black end once."""
        for termination in dict.fromkeys(end.termination for end in (*reds, *blacks)):
            plus = [end for end in reds if end.termination == termination]
            minus = [end for end in blacks if end.termination == termination]
            if plus and minus:
                yield from ((red, minus[0]) for red in plus)
                yield from ((plus[0], black) for black in minus[1:])
            elif plus:
                yield from ((red, blacks[0]) for red in plus)
            else:
                yield from ((reds[0], black) for black in minus)

    def _volts_row(self, pack: Termination, red: End, black: End, volts: Range | None) -> Measurement:
        plugged = tuple(part for part in self._ends.parts if self._on_the_way(part))
        at_red = self._words.place(red)
        if black.at is At.BARE and self._pad(black):
            plugged = (black.termination, *plugged)
            at_red = f"{at_red}, its minus soldered already"
            black = End(At.GROUND, black.board, black.termination)
        at_black = self._words.place(black)
        if red.at is At.CONTACT and not self._mates(red):  # no board: the plug that the pack's leads end in
            if black.at is At.CONTACT:
                both = "both in the pack's own plug" if red.termination == black.termination else "each in its own plug"
                at_black = f"{at_black}, {both}, not plugged in"
            else:
                at_red = f"{at_red} in the pack's own plug, not plugged in"
        on = self._ready_for_volts(red, black)
        note = f"the pack alone{on}" if red.at is At.CONTACT else f"{BEFORE_LAST}{on}"
        return self._row(pack, _Measured(_Probe(red, at_red), _Probe(black, at_black), plugged), note, volts)

    def _ready_for_volts(self, red: End, black: End) -> str:
        """Fuses and switches through which they come: ", fuse in F1 for this, SW1 on"."""
        if red.at not in (At.CONTACT, At.BARE):
            return ""
        minus = list(probed(black, self._craft))
        ways = self._ways.gates_to(red.lead or "", self._ways.all_joints, minus).values()
        common = [gate for gate in self._ways.gates if ways and all(gate in way for way in ways)]
        fuses = self._gates_between(red, common, TAKEN_OUT)
        switched = self._gates_between(red, common, SWITCHES)
        switches = [switch_words(self._craft.terminations[reference]) for reference in switched]
        fused = f", fuse in {listed(fuses)} for this (out: {_NO_VOLTS})" if fuses else ""
        alone = "" if fuses else f" (off: {_NO_VOLTS})"
        return f"{fused}, {listed(switches)} on{alone}" if switches else fused

    def _gates_between(self, red: End, common: Sequence[str], letters: Collection[str]) -> list[str]:
        """`common`: those of all ways there."""
        of_kind = [gate for gate in common if letters_of(gate) in letters]
        return list(dict.fromkeys([*self._ends.between(red, letters), *of_kind]))

    def _mates(self, end: End) -> bool:
        return self._words.place(end) != self._words.contact(end.termination, end.contact)

    def _pad(self, end: End) -> bool:
        return self._craft.terminations[end.termination].kind is Kind.PAD

    def _on_the_way(self, part: str) -> bool:
        return part in self._world.live_places

    def _on_its_own(self, pack: Termination, plus: Contact, minus: Contact) -> Measurement:
        red, black = (
            _Probe(End(At.CONTACT, pack.board, *contact.key), self._words.contact(*contact.key))
            for contact in (plus, minus)
        )
        nets = [{contact.net_id for contact in other.contacts} for other, _, _ in self._ends.packs if other is not pack]
        alone = not any({plus.net_id, minus.net_id} & met for met in nets) or bool(self._ends.in_parallel(pack))
        volts = self._ends.volts_of(pack) if alone else self._ends.stated(pack)
        note = "on the pack's own plug" if pack.family is not None else _ON_BARE_LEADS
        return self._row(pack, _Measured(red, black), note, volts)

    def _row(self, pack: Termination, at: _Measured, note: str, volts: Range | None) -> Measurement:
        red, black = at.red, at.black
        said = f"{volts[0]:g} to {volts[1]:g} V" if volts else "the pack's voltage (not stated in the drawing)"
        twins = self._ends.in_parallel(pack)
        notes = [note, _ALONE]
        if twins and red.end.at is At.CONTACT and red.end.lead is not None:
            notes.append(f"in parallel with {listed(twins)} there")
        elif twins:
            notes.append(f"in parallel with {listed(twins)}: within {PACKS_WITHIN} of it before they are connected")
        leads = {probe.end.lead for probe in (red, black) if probe.end.lead}
        marks = tuple(sorted(leads, key=natural))
        cables = [self._world.made[mark].lead.cable for mark in marks]
        return with_id(
            Measurement(
                group=self._world.group(marks[0]) if marks else f"Pack {pack.board}",
                test=Test.VOLTS,
                leads=marks,
                start=red.words,
                end=f"on {black.words}",
                at_end=black.words,
                expect=f"{said}, no minus sign",
                notes=tuple(notes),
                kind=RowKind.VOLTS,
                when=When.PACK,
                cable=next((cable for cable in cables if cable), None),
                plugged=at.plugged,
                where=red.end,
                joined=(black.end,),
                volts=volts,
                meter=DC_VOLTS,
            ),
            self._world.ends,
        )
