"""A board's plugs as a person sees them: as printed on the board, and as each cable plug lies in the hand."""

from __future__ import annotations

from msgspec import Struct

from tabside.facts import families
from tabside.model.board import BoardFile, BoardPlug
from tabside.model.craft import HeldBoard, Kind, Termination
from tabside.wiring.faces import OTHER_SIDE, RELEASE_SIDE, tabs_reversed
from tabside.words.contacts import counted, with_article

NOT_USED = "nc"


class PlugView(Struct, frozen=True):
    """One plug drawn back.  None is "not known": nothing is guessed."""

    name: str
    kind: str
    family: str | None  # id
    contacts: tuple[tuple[str, str], ...]  # (contact, signal); "nc" is not used, "" has no name
    entry: str | None
    tabs_face: str | None  # where the locking tabs face: "board", "away", "near", "far"
    contact_1: str | None  # "left" or "right" as printed on the board
    contact_1_in_hand: str | None  # the same with the locking tabs towards you and the wires hanging down
    gives: str
    takes: str
    notes: tuple[str, ...]  # what is missing or worth knowing, a sentence each

    @property
    def what(self) -> str:
        """ "board connector for a JST GH cable plug, 6-way"."""
        return what_it_is(self.kind, self.family, len(self.contacts))

    @property
    def printed(self) -> tuple[str, ...] | None:
        """Signals from left to right as printed on the board."""
        return self._row(self.contact_1)

    @property
    def in_hand(self) -> tuple[str, ...] | None:
        """Signals from left to right of the cable plug in the hand."""
        return self._row(self.contact_1_in_hand)

    @property
    def frame(self) -> str:
        """How the board is held for `printed`."""
        return frame_of(self.kind, self.entry)

    @property
    def sentence(self) -> str:
        """What one look at the real board confirms or denies."""
        first = signal_words(self.contacts[0][1])
        if len(self.contacts) == 1:
            return f"The only contact is {first}."
        if self.kind == Kind.PAD:
            names = ", ".join(f"{number} {signal_words(signal)}" for number, signal in self.contacts)
            return f"Printed at the pads: {names}; solder by these names, not by the order."
        if self.contact_1 is None:
            return f"Contact 1, at the contact-1 mark, is {first}; the other end is {self._last}."
        return f"Contact 1, at the {self.contact_1} {self.frame}, is {first}; the other end is {self._last}."

    @property
    def _last(self) -> str:
        return signal_words(self.contacts[-1][1])

    def _row(self, side: str | None) -> tuple[str, ...] | None:
        if side is None:
            return None
        names = tuple(signal for _, signal in self.contacts)
        return names if side == "left" else names[::-1]


class BoardView(Struct, frozen=True):
    """A board with all of its plugs."""

    board: BoardFile
    plugs: tuple[PlugView, ...]

    @property
    def heading(self) -> str:
        return f"{self.board.name}: {self.board.title}" if self.board.title else self.board.name

    @property
    def held_words(self) -> str:
        if self.board.held:
            return "Held against the real board."
        return "Not held against the real board yet: do that, then write held = true."


def board_view(held: HeldBoard) -> BoardView:
    pairs = zip(held.board.plugs, held.plugs, strict=True)
    return BoardView(held.board, tuple(_plug_view(plug, termination) for plug, termination in pairs))


def signal_words(signal: str) -> str:
    return {NOT_USED: "not used", "": "without a name"}.get(signal, signal)


def what_it_is(kind: str, family: str | None, ways: int) -> str:
    title = "" if family is None else families.family(family).title
    if kind == Kind.PAD:
        return counted(ways, "solder pad")
    if kind == Kind.CAPTIVE:
        ends = f"in {with_article(title)} cable plug" if title else "with bare ends"
        return f"{counted(ways, 'lead')} of the part itself {ends}"
    if kind == Kind.SPLICE:
        return "splice"
    plug = f"{with_article(title)} cable plug" if title else "a cable plug of a family not given"
    return f"board connector for {plug}, {ways}-way"


def frame_of(kind: str, entry: str | None) -> str:
    if entry == "top":
        return "when the board lies as in the maker's picture"
    if kind == Kind.PAD:
        return "when you look at the pads"
    return "when the opening faces you"


def _plug_view(plug: BoardPlug, termination: Termination) -> PlugView:
    row = termination.rows == 1 and len(termination.contacts) > 1
    side = termination.contact_1 if row and termination.contact_1 in OTHER_SIDE else None
    return PlugView(
        name=plug.name,
        kind=termination.kind.value,
        family=termination.family,
        contacts=tuple(
            (contact.number, contact.label or (NOT_USED if contact.flagged_empty else ""))
            for contact in termination.contacts
        ),
        entry=termination.entry,
        tabs_face=termination.tabs,
        contact_1=side,
        contact_1_in_hand=_in_hand(termination, side),
        gives=plug.fields.get("Gives", ""),
        takes=plug.fields.get("Takes", ""),
        notes=tuple(_notes(plug, termination)),
    )


def _in_hand(termination: Termination, side: str | None) -> str | None:
    entry, tabs = termination.entry, termination.tabs
    if side is None or entry is None or tabs is None or (entry, tabs) not in RELEASE_SIDE:
        return None
    if termination.family is not None and not families.family(termination.family).has_faces:
        return None
    return OTHER_SIDE[side] if tabs_reversed(entry, tabs) else side


def _notes(plug: BoardPlug, termination: Termination) -> list[str]:
    notes = []
    nameless = [contact.number for contact in termination.contacts if not contact.label and not contact.flagged_empty]
    if plug.unknown:
        numbers = ", ".join(map(str, plug.unknown))
        notes.append(f"The board's project does not say what contact {numbers} is.")
    elif nameless and len(nameless) == len(termination.contacts):
        notes.append(
            f"The names are not put to contacts: {plug.fields.get('Seen from', 'the picture')} needs contact_1 (and "
            "entry and tabs, for a picture of the plug)."
        )
    if termination.kind is Kind.RECEPTACLE and termination.family is None:
        notes.append("Family not given: `tabside families` lists them.")
    notes += _odd_ways(termination) + _rows_words(termination)
    missing = [
        key for key, value in (("contact_1", termination.contact_1), ("entry", termination.entry)) if value is None
    ]
    if termination.takes_plug and termination.rows == 1 and len(termination.contacts) > 1:
        missing += ["tabs"] if termination.tabs is None else []
        if missing:
            notes.append(f"Orientation not complete ({', '.join(missing)} not given): count from the contact-1 mark.")
    return notes


def _rows_words(termination: Termination) -> list[str]:
    known = families.family(termination.family) if termination.family is not None else None
    if known is None or not known.may_be_two_row:
        return []
    if termination.rows == 1:
        return [f"{known.title} is made in one row and in two: this is drawn as one row."]
    return [f"{known.title} has two rows: no left and right is given; go by the contact numbers on the part."]


def _odd_ways(termination: Termination) -> list[str]:
    known = families.family(termination.family) if termination.family is not None else None
    ways = len(termination.contacts)
    if known is None or known.circuits is None or ways in known.circuits:
        return []
    return [f"No {known.title} with {ways} ways was found in the tables: count the contacts again."]
