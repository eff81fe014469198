"""Both builds, as the steps need them, and what changes in them from sheet to sheet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd, MadeLead
from tabside.compare.changes.stated import new_pairs
from tabside.compare.fates.cable_fate import CableFate
from tabside.compare.matched.rebuild import OfRebuild, Rebuild
from tabside.compare.reuse.other_boards import OtherBoard
from tabside.compare.reuse.wires import Ends, end_of, gets_new_end
from tabside.compare.work.measuring.alone import Tests
from tabside.compare.work.new_wires import NewWires
from tabside.compare.work.packs.hot import Hot
from tabside.compare.work.plugs import Plugs
from tabside.documents.build import CraftBuild
from tabside.make.needs.cable_jobs import soldered
from tabside.make.sheets.plug_views import Views
from tabside.model.craft import Cable, ContactKey, Kind, Lead
from tabside.model.stock import Cutting


@dataclass
class BothBuilds(OfRebuild):
    """The old craft as it lies there, and the new one as it is to become."""

    rebuild: Rebuild
    build: CraftBuild  # of the new drawing
    plugs: Plugs
    wires: NewWires
    fates: tuple[CableFate, ...]
    hot: Hot
    boards: tuple[OtherBoard, ...] = ()  # that go, and what comes in their place
    later: frozenset[str] = frozenset()  # boards that a later test wants alone
    fuse_is_in: bool = True
    opened: set[str] = field(default_factory=set)  # splices that go and whose cover is off
    own_at: dict[str, str] = field(init=False)  # own wire of a pack that stays on -> where it ends now

    def __post_init__(self) -> None:
        self.own_at = {mark: place for mark, place in self.hot.was_at.items() if mark not in self.hot.off}

    # --- of the old craft --------------------------------------------------------------------------------------

    @cached_property
    def goes_into(self) -> dict[Ends, str]:
        """Each old wire that is used again -> the cable into which it goes."""
        return {before: fate.name for fate in self.fates for before, _ in fate.wires}

    @cached_property
    def becomes(self) -> dict[Ends, str]:
        """The same -> its new number."""
        return {before: self.new.leads[after].mark for fate in self.fates for before, after in fate.wires}

    @cached_property
    def with_pack(self) -> set[str]:
        """Old numbers of wires that go with a pack."""
        return {self.old.leads[wire].mark for fate in self.fates if fate.pack_goes for wire in fate.gone}

    @cached_property
    def old_views(self) -> Views:
        return Views(self.old.craft)

    @cached_property
    def old_plugs(self) -> set[str]:
        return self.old.plugged(self.old.by_mark)

    @cached_property
    def plugs_that_go_on(self) -> dict[str, str]:
        """Each old plug in which a wire stays -> the connector into which it goes."""
        used = {(fate, key[0]) for fate in self.fates for before, _ in fate.wires for key in before}
        return {ref: to for fate in self.fates for ref, to in fate.places if (fate, ref) in used}

    def goes_on(self, reference: str) -> bool:
        """Whether a wire of this plug is used again, in whichever cable."""
        return any(wire in self.becomes for wire in self.old.wires_at(reference))

    def stays_in_plug(self, reference: str) -> bool:
        """Whether a wire of this plug is in the plug of the new build there: that is the same one then."""
        seat = self.plugs.seat(reference)
        after = (self.becomes[wire] for wire in self.old.wires_at(reference) if wire in self.becomes)
        return any(key[0] == seat for mark in after for key in self.new.by_mark[mark].ends)

    def old_end(self, wire: Ends, key: ContactKey) -> LeadEnd:
        return end_of(self.old, wire, key)

    def is_own(self, old_mark: str, key: ContactKey) -> bool:
        """Whether the old wire is a part's own, and begins there."""
        made = self.old.made_by_mark[old_mark]
        return any(end.key == key and end.kind is EndKind.OWN for end in made.ends)

    def is_cup(self, old_mark: str, key: ContactKey) -> bool:
        """Whether the old wire is soldered into its plug there."""
        made = self.old.made_by_mark[old_mark]
        return any(
            end.key == key and soldered(end) and end.key[0] in self.old.plugged((old_mark,)) for end in made.ends
        )

    # --- of the new craft --------------------------------------------------------------------------------------

    @cached_property
    def views(self) -> Views:
        return Views(self.build.craft)

    @cached_property
    def made(self) -> dict[str, MadeLead]:
        """By number, how the ends of each wire are made."""
        return {made.lead.mark: made for made in self.build.leads}

    @cached_property
    def live(self) -> frozenset[str]:
        """The packs' own wires."""
        return frozenset(self.new.live)

    @cached_property
    def pairs(self) -> tuple[Sequence[Lead], ...]:
        """Wires that are twisted together now and were not before."""
        return tuple(new_pairs(self.rebuild))

    @property
    def cutting(self) -> Cutting:
        return self.build.craft.settings.cutting

    def new_end(self, mark: str, key: ContactKey) -> LeadEnd:
        return next(end for end in self.made[mark].ends if end.key == key)

    def is_soldered(self, mark: str, key: ContactKey) -> bool:
        return soldered(self.new_end(mark, key))

    def is_crimped(self, mark: str, key: ContactKey) -> bool:
        return self.new_end(mark, key).kind is EndKind.CONTACT

    def joints(self, marks: Iterable[str]) -> set[ContactKey]:
        """Ends of these wires that are soldered when all is done; of those alone that are made."""
        made = (self.made[mark] for mark in marks if mark in self.made)
        return {end.key for wire in made for end in wire.ends if soldered(end)}

    def plug_ends(self, cable: Cable) -> set[str]:
        """Where it is plugged in."""
        return self.new.plugged(cable.leads)

    def takes_plug(self, reference: str) -> bool:
        """Whether the new drawing has it, and a plug goes in there."""
        return reference in self.new.terminations and self.new.terminations[reference].takes_plug

    def meets_pack(self, cable: Cable) -> bool:
        ends = (self.new.terminations[reference] for reference in cable.ends)
        return any(end.kind is Kind.CAPTIVE and end.board in self.packs for end in ends)

    @cached_property
    def on_other_boards(self) -> frozenset[str]:
        """Places of boards that come where others were: nothing is soldered there yet."""
        return frozenset(ref for board in self.boards for ref in board.comes)

    # --- of both -----------------------------------------------------------------------------------------------

    @cached_property
    def packs(self) -> frozenset[str]:
        """Of both drawings."""
        return frozenset(self.new.packs | self.old.packs)

    @cached_property
    def places_of(self) -> list[tuple[CableFate, frozenset[str]]]:
        """Each cable, and all places at which hands come or plugs are, in words of the new drawing."""
        return [(fate, frozenset(self._places_of(fate))) for fate in self.fates]

    def _places_of(self, fate: CableFate) -> Iterator[str]:
        yield from fate.new.ends if fate.new is not None else ()
        yield from (self.plugs.seat(ref) for ref in (fate.old.ends if fate.old is not None else ()))
        yield from (self.plugs.seat(ref) for wire in (*fate.gone, *(a for a, _ in fate.wires)) for ref, _ in wire)

    @cached_property
    def tests(self) -> Tests:
        return Tests(self.new, self.plugs, self.build.proof.world)

    def is_new_end(self, wire: Ends, here: ContactKey, mark: str, there: ContactKey) -> bool:
        """Whether the end of the old wire is made anew where it comes."""
        return gets_new_end(self.old, wire, here, self.new, frozenset(self.new.by_mark[mark].ends), there)
