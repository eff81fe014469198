"""How each cable is made, step by step: what sheets, drawings and JSON are laid out from.

All of it is worked out here once; a page computes nothing.  Lengths in mm, times in minutes, money in the craft
file's own currency.  None is "not known" or "does not apply", as each field says.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

from msgspec import Struct

from tabside.analysis.joined.lead_ends import EndKind, plug_kind
from tabside.make.method import Method
from tabside.prove.measurement import Measurement
from tabside.words.cautions import at_live
from tabside.words.contacts import begun, listed, plural
from tabside.words.parts import sheet_name

CURRENCY = "(in your currency)"


class Action(StrEnum):
    TAKE_OUT = "take out"
    PUT_IN = "put in"
    LEAVE_OUT = "leave out"  # a lead that the drawing does not use: taken out for good
    CUT = "cut"
    STRIP = "strip"
    SOLDER = "solder"
    CRIMP = "crimp"
    SHRINK = "shrink"  # heat-shrink slid over a lead, before its joint is made
    INSULATE = "insulate"  # a finished joint covered, or a bare end taped
    LABEL = "label"
    TEST = "test"


HANDS = (Action.TAKE_OUT, Action.PUT_IN, Action.LEAVE_OUT)  # a contact goes into a cavity or out of one
OFF = (Action.TAKE_OUT, Action.LEAVE_OUT)  # an end out of its cavity, or off its joint


class CableEnd(Struct, frozen=True):
    """One termination that the cable meets."""

    board: str
    termination: str
    family: str | None  # of the plug; None where there is none, or where it is not known
    ways: int | None
    has_plug: bool
    entry: str | None = None  # "side", "top"
    tabs: str | None = None  # "board", "away", "near", "far"
    contact_1: str | None = None  # "left", "right" on face `printed`
    contact_1_on_tabs: str | None = None  # on face `tabs`; None: to be checked by eye, nothing is guessed
    of_old: bool = False  # it stands in the old drawing of a comparison alone

    @property
    def name(self) -> str:
        return f"{self.board}/{self.termination}"

    @property
    def is_cup(self) -> bool:
        """Whether wires are soldered into its plug: no contact slides into it, and none clicks."""
        return self.has_plug and plug_kind(self.family) is EndKind.CUP

    @property
    def shown(self) -> str:
        """As a page says it: "pilot/J9"; "F1" where the part is its own board."""
        return self._shown()

    def contact(self, number: str) -> str:
        """One of its contacts, or a joint there: "F1 2", "SP1 1 of the old drawing"."""
        return self._shown(f" {number}")

    def _shown(self, number: str = "") -> str:
        name = self.termination if self.board == self.termination else self.name
        return f"{name}{number} of the old drawing" if self.of_old else f"{name}{number}"


class Aside(Struct, frozen=True):
    """A plug that is out of its board while a test lasts, since the test wants nothing else in that board."""

    termination: str
    words: str


class Wait(Struct, frozen=True):
    """A bare end whose joint is made later."""

    sheet: str  # as the sheet is called on which it is made; "" on this one, below
    last: bool  # when all else is done

    @property
    def words(self) -> str:
        if not self.sheet:
            return ": it is soldered below"
        return f": it is soldered {'last, ' if self.last else ''}on the sheet of {self.sheet}"


class Step(Struct, frozen=True):
    """One thing to do with the hands."""

    number: int  # from 1 up, within the cable
    action: Action
    board: str  # of the place where it is done, or to which a cut or a strip is nearest
    termination: str  # of the same
    cavity: str | None  # as drawn; of a soldered end the contact's number
    from_mark: int | None  # place of the cavity counted from the mark of contact 1; None where there is no row
    from_left: int | None  # the same from the left, locking-tab side towards you, wires down; None: not known
    lead: str  # mark of the wire list, or "spare 3" for one that the drawing does not use; "" where it is of no wire
    listed: bool  # whether the wire list has it
    colour: str | None
    occupancy: tuple[str | None, ...]  # of the housing there after the step: lead by cavity from 1 up; () if none
    parked: str | None  # lead that lies beside the housing after the step
    full: str  # what is done, in words, without what stands in the fields below: see `words`
    short: str  # the same without the place, which stands beside it on a sheet: see `brief`
    who: str = ""  # the wire that is worked on, before what is done: "W18 (SCL, BK): "
    power: str = ""  # what keeps power off, or how it comes for the first time, before what is done
    wait: Wait | None = None  # what is done to an end whose joint waits
    housing: str = ""  # "old" or "new" while contacts are moved over into an empty housing: the one that is meant
    signal: str = ""  # of the contact at this end; a supply by its polarity
    live: bool = False  # the lead is a pack's own: it carries voltage while hands work on it
    tags: bool = False  # wires get their numbers as they sit in `occupancy`
    rows: tuple[Measurement, ...] = ()  # what a test measures
    unplug: tuple[Aside, ...] = ()  # before the test
    plug_in: tuple[Aside, ...] = ()  # after it
    around: tuple[str, ...] = ()  # what else there is to know of the boards while it lasts
    by_words: bool = False  # of an end off or on a joint: no contact slides through a cavity, `words` say all
    of_old: bool = False  # it is at a place that the old drawing of a comparison alone has
    uncovers: bool = False  # a joint's cover is cut off
    for_volts: bool = False  # it stands beside a measurement of volts: tape off and on, the fuse out again
    spare: str = ""  # of a wire that the drawing does not use: its old number, or its cavity in the starting cable
    swap: str = ""  # "out", "in": a whole board goes or comes; "off": the end of a wire leaves a board that goes

    @property
    def end(self) -> str:
        """As `CableEnd.name`."""
        return f"{self.board}/{self.termination}"

    @property
    def words(self) -> str:
        """The whole step as a sentence."""
        told = f"{self.who}{self.power}{self.full}{self.wait.words if self.wait else ''}"
        return at_live(told) if self.live else told

    @property
    def brief(self) -> str:
        """The same for a sheet on which wire and signal stand beside it, and whether it is live."""
        return f"{self.power}{self.short}{self.wait.words if self.wait else ''}"


class Cavity(Struct, frozen=True):
    """What sits in one cavity of a plug."""

    number: str  # as drawn
    lead: str | None  # None: empty
    signal: str  # of the contact that it meets; "" when it has none
    colour: str | None


class PlugRow(Struct, frozen=True):
    """A plug before and after the steps, cavity by cavity from 1 up."""

    board: str
    termination: str
    before: tuple[Cavity, ...]  # () when it starts as an empty housing, or as no plug at all
    after: tuple[Cavity, ...]


class Handling(Struct, frozen=True):
    """How contacts of a family are released and seated."""

    family: str
    title: str  # as a person says it: "JST GH"
    release: str
    seat: str
    crimp: tuple[
        str, ...
    ]  # each contact with its strip length, its crimp height by gauge and its tool, as far as known
    reuse: str
    source: str  # of the release, with its grade in words


class Elsewhere(Struct, frozen=True):
    """Wires that no test on their own sheet tells about, and where it is seen whether they are right."""

    leads: tuple[str, ...]  # marks
    rows: tuple[Measurement, ...]  # on the sheets of other cables; () when there is none
    sheets: tuple[str, ...]  # names of these sheets
    words: str

    def told(self, numbers: Mapping[str, int]) -> str:
        """With the rows' numbers on the continuity sheet, as far as they have some."""
        known = sorted(numbers[row.id] for row in self.rows if row.id in numbers)
        rows = f" ({plural(len(known), 'row')} {', '.join(map(str, known))})" if known else ""
        return f"{self.words}{rows}"


class CablePlan(Struct, frozen=True):
    """One cable, or the loose leads of one link, and how it is made."""

    mark: str | None  # "C3"; None for leads that enter no plug
    label: str  # "C3", or "W14 W15" for loose leads: names the sheet
    leads: tuple[str, ...]  # marks
    ends: tuple[CableEnd, ...]
    method: Method
    start_from: str | None  # "straight", "reversed", "stock:NAME"; None: from leads, wire, or the part's own plug
    from_what: str  # the same in words: "6-way GH, one to one (stock), J3 end first"
    steps: tuple[Step, ...]
    needs_one_look: tuple[str, ...]
    minutes: float
    cost: float
    why: str
    rows: tuple[PlugRow, ...]  # of each plug; () where no plug is worked on
    start: tuple[tuple[int, int], ...] | None  # cavities that the starting cable joins: of its first end, of its second
    handling: tuple[Handling, ...]  # of each family that hands work on
    moves: int = 0  # contacts put into another cavity
    stopped: str = ""  # why it cannot be made as drawn; then there are no steps
    warnings: tuple[str, ...] = ()  # what to know about its parts: "28 AWG is outside ..., from memory"
    cautions: tuple[str, ...] = ()  # what can hurt on this sheet
    elsewhere: tuple[Elsewhere, ...] = ()
    same_as: str | None = None  # label of an earlier sheet whose cable is made alike
    guests: tuple[str, ...] = ()  # ends at which only joints of other sheets' wires are made here
    meets_pack: bool = False  # a pack's own leads or plug are here: it comes after all that never meet one

    @property
    def is_live(self) -> bool:
        """Whether hands work on a pack's own leads."""
        return any(step.live for step in self.steps)

    @property
    def name(self) -> str:
        """As a page calls it: "cable C3", "W14 W15"."""
        return sheet_name(self.label, self.mark)

    @property
    def between(self) -> str:
        """ "pilot/J9 - radio/J4"; behind it where joints of other sheets' wires are made, too."""
        own = " - ".join(end.shown for end in self.ends if end.termination not in self.guests)
        guests = [end.shown for end in self.ends if end.termination in self.guests]
        return f"{own} (and last joints at {listed(guests, len(guests))})" if guests else own

    @property
    def heading(self) -> str:
        """The same at the head of its sheet."""
        return begun(self.name)

    @property
    def effort_words(self) -> str:
        return f"{self.minutes:g} min, parts {self.cost:.2f} {CURRENCY}"
