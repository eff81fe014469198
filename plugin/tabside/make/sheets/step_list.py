"""Steps for the hands: each with its place on the plug, and what sits in the housing afterwards."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import NamedTuple

from msgspec import Struct, field
from msgspec.structs import replace

from tabside.make.sheets.cable_plan import HANDS, OFF, Action, CableEnd, Step, Wait
from tabside.make.sheets.plug_views import from_left
from tabside.model.craft import ContactKey
from tabside.prove.measurement import Measurement
from tabside.words.spare_wires import spare_name

LABELS_READY = "each goes on as its wire is made, clear of the heat-shrink"
_HELD = "locking-tab side facing you, wires down"


def all_ends(count: int) -> str:
    return "both ends" if count == 2 else f"each of the {count} ends"


def labels_of_wires(marks: str) -> str:
    return f"labels ready, two of each: {marks}"


def _no_signal(_lead: str, _key: ContactKey) -> str:
    return ""


class StepFacts(Struct, frozen=True):
    """What steps say of a lead beside its mark."""

    colours: Mapping[str, str | None] = field(default_factory=dict)  # by mark
    signal: Callable[[str, ContactKey], str] = _no_signal  # of a lead at the termination of this contact
    live: frozenset[str] = frozenset()  # marks of leads that carry voltage


class Words(NamedTuple):
    """What is done to one end of a wire."""

    brief: str
    then: str = ""  # where, on which a page groups
    last: str = ""  # more of what is done, after the place
    power: str = ""  # as in `Step`
    wait: Wait | None = None  # as in `Step`


class _Told(NamedTuple):
    """What a step says, as `Step` has it."""

    full: str
    short: str
    who: str = ""
    power: str = ""
    wait: Wait | None = None
    signal: str | None = None  # None: of the wire, at its contact
    rows: tuple[Measurement, ...] = ()
    tags: bool = False
    by_words: bool = False


class StepList:
    """Steps in order, with the housings followed as they fill and empty."""

    def __init__(self, ends: Mapping[str, CableEnd], facts: StepFacts) -> None:
        self._ends = dict(ends)
        self._facts = facts
        self._rows: dict[str, list[str | None]] = {
            key: [None] * end.ways for key, end in ends.items() if end.has_plug and end.ways is not None
        }
        self._old: dict[str, list[str | None]] = {}  # housings that contacts are moved over from
        self._old_ends: dict[str, CableEnd] = {}  # the same, where they have another number of ways
        self._parked: str | None = None
        self._spares: dict[str, str] = {}  # how steps call wires that the drawing does not use -> `Step.spare`
        self.steps: list[Step] = []

    def add(self, step: Step) -> None:
        """A step that was written elsewhere."""
        self.steps.append(replace(step, number=len(self.steps) + 1))

    def spare(self, of: str) -> str:
        """How steps call a wire that the drawing does not use; `of`: as in `Step.spare`."""
        name = spare_name(of)
        self._spares[name] = of
        return name

    def is_spare(self, lead: str) -> bool:
        return lead in self._spares

    def fill(self, termination: str, cavity: int, lead: str | None) -> None:
        """What sits there before the first step, or after one that says it in words of its own."""
        self._rows[termination][cavity - 1] = lead

    def go_over(
        self,
        termination: str,
        goes: Iterable[tuple[str, int, str]],
        into: CableEnd | None = None,
        between: Callable[[str, ContactKey], None] | None = None,
    ) -> None:
        """Contact by contact out of the old housing and into an empty one, so that nothing is parked.

        `goes`: lead, its cavity in the old housing, and in the new one, in the order of work; `into`: the plug as it
        becomes, when it is of another family or number of ways; `between`: what is done to an end that is out of both.
        """
        self._take_empty_housing(termination, into)
        for lead, source, target in goes:
            self.take_out(termination, source, lead, parks=False)
            if between is not None:
                between(lead, (termination, target))
            self.put_in((termination, target), lead)

    def _take_empty_housing(self, termination: str, into: CableEnd | None) -> None:
        """It takes the plug's place; contacts come out of the old one."""
        row = self._rows[termination]
        self._old[termination], ways = row, len(row)
        if into is not None:
            self._old_ends[termination] = self._ends[termination]
            self._ends[termination] = into
            ways = into.ways or ways
        self._rows[termination] = [None] * ways

    @property
    def ends(self) -> tuple[CableEnd, ...]:
        """All places that steps can name."""
        return tuple(self._ends.values())

    def shown(self, termination: str) -> str:
        return self._ends[termination].shown

    def contact(self, key: ContactKey) -> str:
        """ "F1 2", as the steps call it."""
        return self._ends[key[0]].contact(key[1])

    def row(self, termination: str) -> tuple[str | None, ...]:
        return tuple(self._rows.get(termination, ()))

    def take_out(self, termination: str, cavity: int, lead: str, *, parks: bool, then: str = "") -> None:
        self._old.get(termination, self._rows[termination])[cavity - 1] = None
        if parks:
            self._parked = lead
        then += f"; park {lead}: tape it aside" if parks else ""
        self._hands(Action.TAKE_OUT, (termination, str(cavity)), lead, then)

    def leave_out(self, termination: str, cavity: int, lead: str, then: str = "") -> None:
        self._old.get(termination, self._rows[termination])[cavity - 1] = None
        self._hands(Action.LEAVE_OUT, (termination, str(cavity)), lead, f": the drawing does not use it{then}")

    def put_in(self, key: ContactKey, lead: str, then: str = "") -> None:
        termination, cavity = key
        row = self._rows.get(termination)
        if row is not None and cavity.isdecimal() and 1 <= int(cavity) <= len(row):
            row[int(cavity) - 1] = lead
        if self._parked == lead:
            self._parked = None
        self._hands(Action.PUT_IN, key, lead, f"; push until it clicks, tug gently{then}")

    def work(self, action: Action, key: ContactKey, lead: str, brief: str, then: str = "") -> None:
        """Strip, crimp, solder or cover one end; `brief` and `then`: as in `Words`."""
        self.work_on(action, key, lead, Words(brief, then))

    def work_on(self, action: Action, key: ContactKey, lead: str, words: Words) -> None:
        """The same where more is said."""
        brief, then, last, power, wait = words
        who = f"{self._who(lead, key)}: "
        told = _Told(f"{brief}{then}{last}", f"{brief}{last}", who, power, wait, by_words=action in HANDS)
        self._step(action, key, lead, told)

    def cut(self, key: ContactKey, lead: str, brief: str, then: str = "") -> None:
        signal = self._facts.signal(lead, key)
        told = _Told(f"{brief}{then}", brief, f"{self._who(lead, key)}: ", signal=signal)
        self._step(Action.CUT, (key[0], ""), lead, told)

    def label(self, termination: str, words: str, *, tags: bool = False) -> None:
        """`tags`: each wire gets its number, as they all sit in this plug now."""
        self._step(Action.LABEL, (termination, ""), "", _Told(words, words, tags=tags))

    def untape(self, termination: str, mark: str) -> None:
        """What is taped until its volts are measured, or its joint is made."""
        words = f"take the tape off the bare end of {mark}"
        self._step(Action.LABEL, (termination, ""), "", _Told(words, words))
        self.steps[-1] = replace(self.steps[-1], live=True, for_volts=True)

    def beside_volts(self) -> None:
        """The step that was told last."""
        self.steps[-1] = replace(self.steps[-1], for_volts=True)

    def whole_plug(self, action: Action, termination: str, words: str) -> None:
        """The whole plug, no cavity of it."""
        self._step(action, (termination, ""), "", _Told(words, words))

    def test(self, termination: str, words: str, rows: Sequence[Measurement] = ()) -> None:
        self._step(Action.TEST, (termination, ""), "", _Told(words, words, rows=tuple(rows)))

    def _hands(self, action: Action, key: ContactKey, lead: str, then: str) -> None:
        end = self._end(key[0], action)
        housing = self._housing(key[0], action)
        cavity = f"cavity {key[1]}" + (f" of the {housing} housing" if housing else "")
        place = _place_words(end, self._place(key, action), held=True)
        doing = {
            Action.TAKE_OUT: f"take {self._who(lead, key)} out of {cavity}{place}",
            Action.PUT_IN: f"put {self._who(lead, key)} into {cavity}{place}",
            Action.LEAVE_OUT: f"take {self._who(lead, key)} out of {cavity}{place} and leave it out",
        }[action]
        brief = _place_words(end, self._place(key, action), held=False)
        self._step(action, key, lead, _Told(f"{end.shown}: {doing}{then}", brief))

    def _who(self, lead: str, key: ContactKey) -> str:
        """ "W18 (SCL, BK)"."""
        signal = "" if self.is_spare(lead) else self._facts.signal(lead, key)
        what = ", ".join(filter(None, (signal, self._colour(lead))))
        return f"{lead} ({what})" if what else lead

    def _colour(self, lead: str) -> str:
        return self._facts.colours.get(lead) or ""

    def _step(self, action: Action, key: ContactKey, lead: str, told: _Told) -> None:
        end, place = self._end(key[0], action), self._place(key, action)
        named = bool(lead) and not self.is_spare(lead)
        signal = told.signal
        if signal is None:
            signal = self._facts.signal(lead, key) if named and key[1] else ""
        self.steps.append(
            Step(
                number=len(self.steps) + 1,
                action=action,
                board=end.board,
                termination=end.termination,
                cavity=key[1] or None,
                from_mark=place,
                from_left=from_left(end, place),
                lead=lead,
                listed=named,
                colour=self._facts.colours.get(lead),
                occupancy=self._occupancy(key[0], action),
                parked=self._parked,
                full=told.full,
                short=told.short,
                who=told.who,
                power=told.power,
                wait=told.wait,
                housing=self._housing(key[0], action),
                signal=signal,
                live=lead in self._facts.live,
                rows=told.rows,
                tags=told.tags,
                by_words=told.by_words,
                of_old=end.of_old,
                spare=self._spares.get(lead, ""),
            )
        )

    def _occupancy(self, termination: str, action: Action) -> tuple[str | None, ...]:
        """Of the housing that is worked on, after the step."""
        old = self._old.get(termination) if action in OFF else None
        return self.row(termination) if old is None else tuple(old)

    def _housing(self, termination: str, action: Action) -> str:
        if termination not in self._old or action not in HANDS:
            return ""
        return "new" if action is Action.PUT_IN else "old"

    def _end(self, termination: str, action: Action) -> CableEnd:
        """The plug that is worked on: of two housings the one that is meant."""
        old = self._old_ends.get(termination)
        return old if old is not None and action in OFF else self._ends[termination]

    def _place(self, key: ContactKey, action: Action) -> int | None:
        termination, cavity = key
        row = self._old.get(termination) if action in OFF else None
        row = self._rows.get(termination) if row is None else row
        if row is None or not self._ends[termination].has_plug:
            return None
        if not cavity.isdecimal() or not 1 <= int(cavity) <= len(row):
            return None
        return int(cavity)


def _place_words(end: CableEnd, place: int | None, *, held: bool) -> str:
    """Where the cavity is, counted: both ways where the side is known."""
    if place is None:
        return ""
    left = from_left(end, place)
    if left is None:
        return f", {ordinal(place)} from the contact-1 mark"
    if not held:
        return f", {ordinal(left)} from left"
    return f", {ordinal(place)} from the contact-1 mark, {ordinal(left)} from the left ({_HELD})"


def ordinal(number: int) -> str:
    if 10 <= number % 100 <= 20:
        return f"{number}th"
    return f"{number}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th') }"
