"""What is done with one cable, or with the single wires between two places."""

from __future__ import annotations

from collections.abc import Iterable, KeysView, Mapping
from typing import NamedTuple

from tabside.compare.fates.leads import WireWork
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.other_boards import OtherBoard
from tabside.compare.reuse.wires import (
    Ends,
)
from tabside.compare.side import Side
from tabside.model.craft import Cable, ContactKey
from tabside.words.contacts import begun, listed, plural
from tabside.words.spare_wires import spare_name

KEEP, SHORTEN, MOVE_PLUG, RE_PIN, RE_HOUSE = "keep", "shorten", "move plug", "re-pin", "re-house"
RE_USE, RE_MAKE, MAKE, RETIRE = "re-use", "re-make", "make", "retire"
OTHER_BOARD, OTHER_PART = "other board", "other part"
MEASURED = "Measure all of it."
MAKE_WORDS = "Make it, step by step as listed, and test it."


class CableFate(NamedTuple):
    """One cable of the old or the new build, or the single wires between two places, and what is done with it.

    Single wires stand in a cable without a mark.
    """

    what: str  # "keep", "shorten", "move plug", "re-pin", "re-house", "re-use", "re-make", "retire", "make"
    old: Cable | None
    new: Cable | None
    said: str  # what is done, and that all of it is measured then; "" where nothing is
    wires: tuple[tuple[Ends, Ends], ...] = ()  # old and new ends of each wire that is used again
    made: tuple[Ends, ...] = ()  # new wires, by their new ends
    gone: tuple[Ends, ...] = ()  # old wires that leave it
    places: tuple[tuple[str, str], ...] = ()  # old termination and the new one that its plug or joint goes to
    moved: int | None = None  # contacts and joints that go to another place; None where nothing is moved in it
    rehoused: tuple[str, ...] = ()  # old terminations whose contacts go over into another housing

    in_own_plug: tuple[Ends, ...] = ()  # new leads that a part's own plug brings along, and that were not drawn
    sources: tuple[str, ...] = ()  # old cables of which it is made, when its own is not the only one
    lends: tuple[Ends, ...] = ()  # old wires in its plugs that go into other cables
    pack_goes: bool = False  # the own wires of a pack that goes, out of what stays
    unfit: tuple[tuple[str, str], ...] = ()  # new number of each own wire of a part that will not do, and why
    replugged: tuple[str, ...] | None = None  # new connectors its plugs go into; None where more is done to it
    untried: tuple[str, ...] = ()  # of these the ones in which no plug with these wires has been
    board: OtherBoard | None = None  # another one takes its place, which is all, or why its ends go over

    @property
    def words(self) -> str:
        return self.said or "Keep it."

    @property
    def is_board(self) -> bool:
        """No cable: a board, or a part between wires, goes, and another one comes."""
        return self.old is None and self.new is None

    @property
    def mark(self) -> str:
        """Its number; "" for single wires and boards."""
        cable = self.new or self.old
        return "" if cable is None else cable.mark

    @property
    def name(self) -> str:
        """ "C3", or "W14 W15" for single wires."""
        cable = self.new or self.old
        if cable is None:
            return "" if self.board is None else self.board.called
        return cable.mark or " ".join(cable.leads)

    @property
    def called(self) -> str:
        """ "cable C3", or "wires W14 W15"."""
        cable = self.new or self.old
        if cable is None or cable.mark:
            return f"cable {self.name}"
        return f"{plural(len(cable.leads), 'wire')} {self.name}"

    @property
    def label(self) -> str:
        """Its new number, which it has been given before the work, with the old one where that was another."""
        old, new = self.old, self.new
        was = old.mark if old is not None and new is not None and old.mark != new.mark else ""
        return f"{self.name} (was {was})" if was else self.name

    @property
    def is_cable(self) -> bool:
        """And neither single wires nor a board."""
        return bool(self.mark)

    @property
    def title(self) -> str:
        """ "Cable C3 (was C4)", "Wires W14 W15", "Board hub"."""
        return begun(self.label) if self.is_board else f"{'Cable' if self.is_cable else 'Wires'} {self.label}"


def own_unfit_words(mark: str, why: str) -> str:
    """Of a part's own wire that will not do."""
    return (
        f"{mark} is the part's own wire and {why}. Draw an extension (a splice and a wire), fit another part, or state "
        "what it is; then compare again."
    )


def becomes_of_cables(fates: Iterable[CableFate]) -> dict[str, str]:
    """Old number of each cable that goes on -> its new one; of one that is taken apart that of its first heir."""
    listed = [fate for fate in fates if fate.new is not None and fate.new.mark]
    found = {fate.old.mark: fate.name for fate in listed if fate.old is not None and fate.old.mark}
    for fate in listed:
        if fate.old is not None and not fate.old.mark and fate.sources:
            found.setdefault(fate.sources[0], fate.name)
    return found


def becomes_of_wires(rebuild: Rebuild, fates: Iterable[CableFate]) -> dict[str, str]:
    """Old number of each wire that is used again -> its new one."""
    old, new = rebuild.old, rebuild.new
    return {old.leads[before].mark: new.leads[after].mark for fate in fates for before, after in fate.wires}


def called_now(mark: str, becomes: Mapping[str, str]) -> str:
    """An old wire by the number that it has been given before the work; `becomes`: as `becomes_of_wires`."""
    now = becomes.get(mark)
    if now is None:
        return spare_name(mark)
    return now if now == mark else f"{now} (was {mark})"


def with_sources(fate: CableFate, sources: tuple[str, ...], lends: tuple[Ends, ...]) -> CableFate:
    """The same, made of several old cables, or with wires that go into another."""
    said = []
    if len(sources) > 1:
        said.append(f"It is made of the old cables {listed(list(sources), 40)}.")
    elif sources:
        said.append(f"Its wires come out of the old cable {sources[0]}.")
    if lends:
        said.append(f"Wires that go into another cable: {len(lends)}.")
    if not said:
        return fate
    kept = fate.what in (KEEP, SHORTEN, MOVE_PLUG)
    told = " ".join((*said, MEASURED if fate.what == KEEP else fate.said))
    return fate._replace(
        what=RE_MAKE if kept else fate.what, said=told, sources=sources, lends=lends, replugged=None, untried=()
    )


def works_on_wires(fates: Iterable[CableFate]) -> dict[Ends, WireWork]:
    """What is done with each lead of the new build."""
    found: dict[Ends, WireWork] = {}
    for fate in fates:
        places = dict(fate.places)
        found |= {wire: WireWork(fate.called, is_made=True) for wire in fate.made}
        found |= {wire: WireWork(fate.called, is_made=False) for wire in fate.in_own_plug}
        for before, after in fate.wires:
            over = any(key[0] in fate.rehoused for key in before)
            moves = tuple(ends_moved(places, before, after))
            found[after] = WireWork(fate.called, False, moves, over, fate.replugged is not None and not fate.untried)
    return found


def ends_moved(places: Mapping[str, str], before: Ends, after: Ends) -> list[tuple[ContactKey, ContactKey]]:
    """Old and new contact of each end of a wire that goes to another cavity or joint, its plugs where they go."""
    pairs = contact_pairs(places, before, after)
    return [(here, there) for here, there in pairs if (places.get(here[0]), here[1]) != there]


def wires_of(side: Side, cable: Cable) -> KeysView[Ends]:
    """In the order of its leads: a set's own order is another one in each run."""
    return dict.fromkeys(frozenset(side.by_mark[mark].ends) for mark in cable.leads).keys()


def plugs_made_anew(new: Side, fate: CableFate) -> set[str]:
    """Connectors of a changed cable to which no old plug goes with a wire in it."""
    stay = {key[0] for before, _ in fate.wires for key in before}
    used = {key[0] for _, after in fate.wires for key in after}
    plugs = new.plugged(fate.new.leads) if fate.new is not None else set()
    return plugs - ({to for ref, to in fate.places if ref in stay} & used)


def contact_pairs(places: Mapping[str, str], before: Ends, after: Ends) -> list[tuple[ContactKey, ContactKey]]:
    """Which end of the old wire becomes which end of the new one: as few moves as can be."""
    ways = [list(zip(sorted(before), order, strict=True)) for order in (sorted(after), sorted(after)[::-1])]

    def stay(way: list[tuple[ContactKey, ContactKey]]) -> tuple[int, int]:
        exact = sum((places.get(here[0]), here[1]) == there for here, there in way)
        return (exact, sum(places.get(here[0]) == there[0] for here, there in way))

    return max(ways, key=stay)
