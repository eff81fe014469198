"""Rows at packs: volts only, and the last look for a short before one is plugged in."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from functools import cached_property
from typing import NamedTuple

from tabside.analysis.joints import letters_of
from tabside.analysis.lead_ends import EndKind
from tabside.analysis.power_ways import PowerWays
from tabside.model.craft import Contact, ContactKey, Kind, Termination
from tabside.model.natural import natural
from tabside.prove.bench.reading import Bench, State
from tabside.prove.bench.switching import feeds_boards, switch_words, switches_of
from tabside.prove.bench.world import BARE, SWITCHES, Place, PlaceKind, World
from tabside.prove.measurement import At, End, Measurement, RowKind, Test, When, probed, with_id
from tabside.prove.rows.row_words import DC_VOLTS, HOLD, Words
from tabside.wiring.terminations.part_kinds import TAKEN_OUT
from tabside.words.cautions import PACKS_WITHIN
from tabside.words.contacts import listed, termination_name

BEFORE_PACK = "With everything plugged in but the pack"
BEFORE_LAST = "before this last wire is soldered, all others of it taped"
_ON_BARE_LEADS = (
    "at the ends of the pack's own leads, before either is joined, each bared for this alone and taped again"
)
_NO_VOLTS = "0 V, else it is bypassed"
_ALONE = "never ohms on a pack; never let the probes touch; never in the A jack"


def _of_all_cells(contact: Contact) -> tuple[bool, int]:
    """A pack's whole voltage stands at its plus, else at the highest of its balance taps."""
    tap = contact.role.name == "cell_tap"
    return (tap, -(contact.role.index or 0) if tap else 0)


class _Probe(NamedTuple):
    """Where it goes, and that in words."""

    end: End
    words: str


class PackRows:
    def __init__(self, world: World, words: Words) -> None:
        self._world = world
        self._craft = world.craft
        self._words = words
        self._sound = Bench(world)
        self._ways = PowerWays(world.craft, world.made.values())
        self._parts = tuple(reference for reference in world.craft.terminations if world.passes_on(reference))

    @property
    def packs(self) -> list[tuple[Termination, Contact, Contact]]:
        """Each pack's own leads with their plus and their minus."""
        found = []
        for termination in self._craft.terminations.values():
            if self._world.is_pack(termination.reference):
                supplies = [contact for contact in termination.contacts if contact.role.is_supply]
                plus = sorted(supplies, key=_of_all_cells)
                minus = [contact for contact in termination.contacts if contact.role.is_ground]
                if plus and minus:
                    found.append((termination, plus[0], minus[0]))
        return found

    def volts(self) -> Iterator[Measurement]:
        """At each place where a pack's plus and minus come out, before it meets a board; each pair of places once."""
        told: set[tuple[End, ...]] = set()
        for row in self._all_volts():
            if row.ends not in told:
                told.add(row.ends)
                yield row

    def _all_volts(self) -> Iterator[Measurement]:
        reds: list[tuple[Termination, Contact, End]] = []  # of packs whose other pole meets a pack: they are in series
        blacks: list[End] = []
        for pack, plus, minus in self.packs:
            plus_ends, minus_ends = self._ends_of(plus), self._ends_of(minus)
            if not plus_ends or not minus_ends:
                reds += [(pack, plus, end) for end in plus_ends]
                blacks += minus_ends
                if pack.family is not None or self._is_wired(pack):
                    yield self._on_its_own(pack, plus, minus)
                continue
            for red, black in self._pairs(plus_ends, minus_ends):
                yield self._volts_row(pack, self._alone(plus, red, plus_ends), black, self._volts_of(pack))
        for pack, plus, red in reds:
            for black in blacks:
                if black.termination == red.termination:
                    yield self._volts_row(
                        pack, self._alone(plus, red, self._ends_of(plus)), black, self._volts_in_series()
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

    def _volts_in_series(self) -> tuple[float, float] | None:
        """Of all packs together: as the craft file says, else the sum of what each says."""
        if self._craft.settings.battery is not None:
            return (self._craft.settings.battery.low, self._craft.settings.battery.high)
        stated = [self._stated(pack) for pack, _, _ in self.packs]
        known = [volts for volts in stated if volts is not None]
        if len(known) < len(stated):
            return None
        return (sum(low for low, _ in known), sum(high for _, high in known))

    def _stated(self, pack: Termination) -> tuple[float, float] | None:
        stated = [rail.volts for contact in pack.contacts for rail in contact.gives if rail.volts is not None]
        return (stated[0].low, stated[0].high) if stated else None

    def _ends_of(self, contact: Contact) -> list[End]:
        """Where the pack's contact comes out: cavities of plugs, bare ends for pads."""
        start = Place(PlaceKind.CONTACT, *contact.key)
        sure = self._sound.reaches(start, State(frozenset(self._parts)))
        ends = []
        for place in sorted(sure, key=lambda place: (natural(place.at), natural(place.number))):
            loose_end = place.kind in (PlaceKind.CAVITY, PlaceKind.BARE)
            if loose_end and not self._world.passes_on(place.at):
                ends.append(self._end(place))
        return ends

    def _end(self, place: Place) -> End:
        board = self._craft.terminations[place.at].board
        if place.kind is PlaceKind.BARE:
            return End(At.BARE, board, place.at, place.number, place.lead)
        return End(At.CONTACT, board, place.at, place.number, self._world.wires_at[place][0])

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

    def _volts_row(self, pack: Termination, red: End, black: End, volts: tuple[float, float] | None) -> Measurement:
        plugged = tuple(part for part in self._parts if self._on_the_way(part))
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
        return self._row(pack, _Probe(red, at_red), _Probe(black, at_black), note, plugged, volts)

    def _ready_for_volts(self, red: End, black: End) -> str:
        """Fuses and switches through which they come: ", fuse in F1 for this, SW1 on"."""
        if red.at not in (At.CONTACT, At.BARE):
            return ""
        minus = list(probed(black, self._craft))
        ways = self._ways.gates_to(red.lead or "", self._ways.all_joints, minus).values()
        common = [gate for gate in self._ways.gates if ways and all(gate in way for way in ways)]
        fuses, switches = (
            list(dict.fromkeys([*self._between(red, some), *(gate for gate in common if letters_of(gate) in some)]))
            for some in (TAKEN_OUT, SWITCHES)
        )
        switches = [switch_words(self._craft.terminations[reference]) for reference in switches]
        fused = f", fuse in {listed(fuses)} for this (out: {_NO_VOLTS})" if fuses else ""
        alone = "" if fuses else f" (off: {_NO_VOLTS})"
        return f"{fused}, {listed(switches)} on{alone}" if switches else fused

    def _between(self, end: End, letters: Collection[str]) -> list[str]:
        """Parts of this kind through which the pack's volts come to this end."""
        kind = PlaceKind.BARE if end.at is At.BARE else PlaceKind.CAVITY
        start = Place(kind, end.termination, end.contact, end.lead or "" if end.at is At.BARE else "")
        packs = {Place(PlaceKind.CONTACT, *plus.key) for _, plus, _ in self.packs}

        def comes(parts: tuple[str, ...]) -> bool:
            return bool(packs & self._sound.reaches(start, State(frozenset(parts))))

        inline = [part for part in self._parts if self._craft.terminations[part].kind is Kind.INLINE]
        found = [part for part in inline if letters_of(part) in letters]
        return [part for part in found if not comes(tuple(other for other in self._parts if other != part))]

    def _mates(self, end: End) -> bool:
        return self._words.place(end) != self._words.contact(end.termination, end.contact)

    def _pad(self, end: End) -> bool:
        return self._craft.terminations[end.termination].kind is Kind.PAD

    def _on_the_way(self, part: str) -> bool:
        return part in self._world.live_places

    def _is_wired(self, pack: Termination) -> bool:
        """Whether a lead meets it: bare ones that meet nothing stay under their maker's tape."""
        return any(contact.key in self._world.met for contact in pack.contacts)

    def _on_its_own(self, pack: Termination, plus: Contact, minus: Contact) -> Measurement:
        red, black = (
            _Probe(End(At.CONTACT, pack.board, *contact.key), self._words.contact(*contact.key))
            for contact in (plus, minus)
        )
        nets = [{contact.net_id for contact in other.contacts} for other, _, _ in self.packs if other is not pack]
        alone = not any({plus.net_id, minus.net_id} & met for met in nets) or bool(self._in_parallel(pack))
        volts = self._volts_of(pack) if alone else self._stated(pack)
        note = "on the pack's own plug" if pack.family is not None else _ON_BARE_LEADS
        return self._row(pack, red, black, note, (), volts)

    def _row(
        self,
        pack: Termination,
        red: _Probe,
        black: _Probe,
        note: str,
        plugged: tuple[str, ...],
        volts: tuple[float, float] | None,
    ) -> Measurement:
        said = f"{volts[0]:g} to {volts[1]:g} V" if volts else "the pack's voltage (not stated in the drawing)"
        twins = self._in_parallel(pack)
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
                plugged=plugged,
                where=red.end,
                joined=(black.end,),
                volts=volts,
                meter=DC_VOLTS,
            ),
            self._world.ends,
        )

    def _volts_of(self, pack: Termination) -> tuple[float, float] | None:
        stated, craft = self._stated(pack), self._world.pack
        return stated or ((craft.low, craft.high) if craft else None)

    def _in_parallel(self, pack: Termination) -> list[str]:
        """Packs that share plus and minus with it."""
        nets = self._nets(pack)
        return [
            other.board
            for other, _, _ in self.packs
            if other.reference != pack.reference
            and all(mine & theirs for mine, theirs in zip(nets, self._nets(other), strict=True))
        ]

    def _nets(self, pack: Termination) -> tuple[set[int], set[int]]:
        plus = {contact.net_id for contact in pack.contacts if contact.role.is_supply}
        return plus, {contact.net_id for contact in pack.contacts if contact.role.is_ground}

    def before_the_pack(self) -> Iterator[Measurement]:
        """Across each place where a pack goes in: the craft must not be a short."""
        told: set[tuple[End, End]] = set()
        grounds = [self._craft_side(minus) for _, _, minus in self.packs]
        for pack, plus, minus in self.packs:
            red, black = self._craft_side(plus), self._craft_side(minus)
            if red is not None and black is None:  # in series: the minus of the lowest pack
                black = next((end for end in grounds if end and end.termination == red.termination), None)
            if red is not None and black is not None and (red, black) not in told:
                told.add((red, black))
                yield self._short_row(pack, red, black)
            for other in self._other_boards(plus):
                if other not in told:
                    told.add(other)
                    yield self._short_row(pack, *other)

    def _other_boards(self, own: Contact) -> Iterator[tuple[End, End]]:
        """Plus and minus of each further board to which a soldered pack's volts come last, over a wire of its own."""
        for end in self._ends_of(own)[1:]:
            termination = self._craft.terminations[end.termination]
            minus = next((contact for contact in termination.contacts if contact.role.is_ground), None)
            if end.at is At.BARE and minus is not None:
                red, black = (End(At.CONTACT, end.board, end.termination, n) for n in (end.contact, minus.number))
                yield red, black

    def _craft_side(self, own: Contact) -> End | None:
        """The board's contact that the pack's lead will meet; of a plug made for a pack's own, the plug's."""
        ends = self._ends_of(own)
        if ends:
            first = ends[0]
            is_mate = self._craft.terminations[first.termination].kind is Kind.CAPTIVE
            return End(At.CONTACT, first.board, first.termination, first.contact, first.lead if is_mate else None)
        for mark, made in self._world.made.items():
            for end in made.ends:
                if end.key == own.key and end.kind is EndKind.MATE:
                    return End(At.CONTACT, self._craft.terminations[own.termination].board, *own.key, mark)
        return None

    def _short_row(self, pack: Termination, plus: End, minus: End) -> Measurement:
        ends = [(mark, key[0]) for mark, made in self._world.made.items() for key in made.lead.ends]
        live = {reference for mark, reference in ends if mark in self._world.live}
        packs = {pack.reference for pack, _, _ in self.packs}
        plugged = tuple(sorted({reference for _, reference in ends} - live - packs, key=natural))
        side = termination_name(self._craft, plus.termination)
        away = "the pack away" if len({pack.board for pack, _, _ in self.packs}) == 1 else "every pack away"
        on, off = self._switched(plugged)
        notes = ["a short beep and a climbing reading are capacitors charging", *self._states(plugged, on, off)]
        if not self._is_bare(pack, plus) and (loads := self._always_on(plus, off)):
            notes.append(f"{listed(loads, 40)} may conduct like a wire: take it off first")
        return with_id(
            Measurement(
                group=BEFORE_PACK,
                test=Test.SHORT,
                leads=(),
                start=f"minus, {self._words.place(minus)}",
                end=f"on plus, {self._words.place(plus)}, at the craft's side of {side}, {away}",
                expect="no steady beep; the reading climbs",
                notes=tuple(notes),
                when=When.CRAFT,
                plugged=plugged,
                where=minus,
                open=(plus,),
                off=off,
                meter=HOLD,
            ),
            self._world.ends,
        )

    def _is_bare(self, pack: Termination, plus: End) -> bool:
        """Whether no wire is on this contact yet: a soldered pack comes on last, once its volts were measured."""
        leads = [plus for one, plus, _ in self.packs if one is pack]
        ends = [end for own in leads for end in self._ends_of(own)]
        return any(end.at is At.BARE and end.termination == plus.termination for end in ends)

    def _switched(self, plugged: Collection[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """Switches that are on, since boards hang on them, and all others."""
        switches = [switch for switch in switches_of(self._world) if switch.reference in plugged]
        on = tuple(switch.reference for switch in switches if feeds_boards(self._world, switch))
        inline = [part for part in plugged if self._craft.terminations[part].kind is Kind.INLINE]
        return on, tuple(part for part in inline if letters_of(part) in SWITCHES and part not in on)

    def _states(self, plugged: Collection[str], on: Sequence[str], off: Sequence[str]) -> Iterator[str]:
        """How fuses and switches stand while the craft is measured."""
        if fuses := [part for part in plugged if letters_of(part) in TAKEN_OUT and self._world.passes_on(part)]:
            yield f"fuses in: {', '.join(fuses)}"
        if on:
            shown = [switch_words(self._craft.terminations[reference]) for reference in on]
            yield f"switched on: {', '.join(shown)}" + (", every other switch off" if off else "")
        elif off:
            yield "every switch off"

    def _always_on(self, plus: End, off: Collection[str]) -> list[str]:
        """What takes a supply and no more, with these switches off: a lamp, a fan, a heater conducts like a wire."""
        nets = self._nets_without(plus, off)
        loads = [
            termination.board
            for termination in self._craft.terminations.values()
            if termination.board in self._world.plain_loads
            and not self._world.is_pack(termination.reference)
            and any(contact.role.is_supply and contact.net_id in nets for contact in termination.contacts)
        ]
        return list(dict.fromkeys(loads))

    def _nets_without(self, plus: End, off: Collection[str]) -> set[int]:
        nets = {self._craft.contact((plus.termination, plus.contact)).net_id}
        closed = [
            {contact.net_id for contact in part.contacts}
            for part in self._craft.terminations.values()
            if part.kind is Kind.INLINE and part.reference not in off
        ]
        while True:
            more = [part for part in closed if part & nets and not part <= nets]
            if not more:
                return nets
            nets = nets.union(*more)
