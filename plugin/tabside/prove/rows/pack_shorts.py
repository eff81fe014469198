"""The last look for a short before a pack is plugged in."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from tabside.analysis.joined.joints import letters_of
from tabside.analysis.joined.lead_ends import EndKind
from tabside.model.craft import Contact, Kind, Termination
from tabside.model.natural import natural
from tabside.prove.bench.switching import feeds_boards, switch_words, switches_of
from tabside.prove.bench.world import SWITCHES
from tabside.prove.measurement import At, End, Measurement, Section, Test, When, with_id
from tabside.prove.rows.pack_ends import PackEnds
from tabside.prove.rows.row_words import HOLD, Words
from tabside.wiring.terminations.part_kinds import TAKEN_OUT
from tabside.words.contacts import listed, termination_name


class PackShorts:
    def __init__(self, ends: PackEnds, words: Words) -> None:
        self._ends = ends
        self._world = ends.world
        self._craft = ends.craft
        self._words = words

    def rows(self) -> Iterator[Measurement]:
        """Across each place where a pack goes in: the craft must not be a short."""
        told: set[tuple[End, End]] = set()
        grounds = [self._craft_side(minus) for _, _, minus in self._ends.packs]
        for pack, plus, minus in self._ends.packs:
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
        for end in self._ends.ends_of(own)[1:]:
            termination = self._craft.terminations[end.termination]
            minus = next((contact for contact in termination.contacts if contact.role.is_ground), None)
            if end.at is At.BARE and minus is not None:
                red, black = (End(At.CONTACT, end.board, end.termination, n) for n in (end.contact, minus.number))
                yield red, black

    def _craft_side(self, own: Contact) -> End | None:
        """The board's contact that the pack's lead will meet; of a plug made for a pack's own, the plug's."""
        ends = self._ends.ends_of(own)
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
        packs = {pack.reference for pack, _, _ in self._ends.packs}
        plugged = tuple(sorted({reference for _, reference in ends} - live - packs, key=natural))
        side = termination_name(self._craft, plus.termination)
        away = "the pack away" if len({pack.board for pack, _, _ in self._ends.packs}) == 1 else "every pack away"
        on, off = self._switched(plugged)
        notes = ["a short beep and a climbing reading are capacitors charging", *self._states(plugged, on, off)]
        if not self._is_bare(pack, plus) and (loads := self._always_on(plus, off)):
            notes.append(f"{listed(loads, 40)} may conduct like a wire: take it off first")
        return with_id(
            Measurement(
                group=Section.BEFORE_PACK,
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
        leads = [plus for one, plus, _ in self._ends.packs if one is pack]
        ends = [end for own in leads for end in self._ends.ends_of(own)]
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
