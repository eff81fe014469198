"""Steps for the hands: each with its place on the plug, and what sits in the housing afterwards."""

from __future__ import annotations

from collections.abc import Mapping

from tabside.make.sheets.cable_plan import Action, CableEnd, Step
from tabside.make.sheets.plug_views import from_left

_DO = {
    Action.TAKE_OUT: "take {lead} out of cavity {cavity}",
    Action.PUT_IN: "put {lead} into cavity {cavity}",
    Action.LEAVE_OUT: "take {lead} out of cavity {cavity} and leave it out: the drawing does not use it",
    Action.SOLDER: "solder {lead} to contact {cavity}",
    Action.CRIMP: "crimp a contact on {lead}, its end for cavity {cavity}",
    Action.STRIP: "strip {lead}, its end for contact {cavity}",
}
SPARE = "spare "


class StepList:
    """Steps in order, with the housings followed as they fill and empty."""

    def __init__(self, ends: Mapping[str, CableEnd], colours: Mapping[str, str | None]) -> None:
        self._ends = ends
        self._colours = colours
        self._rows: dict[str, list[str | None]] = {
            each.termination: [None] * each.ways for each in ends.values() if each.has_plug and each.ways is not None
        }
        self._old: dict[str, list[str | None]] = {}  # housings that contacts are moved over from
        self._parked: str | None = None
        self.steps: list[Step] = []

    def fill(self, termination: str, cavity: int, lead: str) -> None:
        """What sits there before the first step."""
        self._rows[termination][cavity - 1] = lead

    def move_over(self, termination: str) -> None:
        """An empty housing takes the plug's place; contacts come out of the old one."""
        self._old[termination] = self._rows[termination]
        self._rows[termination] = [None] * len(self._rows[termination])

    def row(self, termination: str) -> tuple[str | None, ...]:
        return tuple(self._rows.get(termination, ()))

    def take_out(self, termination: str, cavity: int, lead: str, *, parks: bool) -> None:
        self._old.get(termination, self._rows[termination])[cavity - 1] = None
        if parks:
            self._parked = lead
        then = f"; park {lead}" if parks else ""
        self._add(Action.TAKE_OUT, termination, str(cavity), lead, then)

    def leave_out(self, termination: str, cavity: int, lead: str, then: str = "") -> None:
        self._old.get(termination, self._rows[termination])[cavity - 1] = None
        self._add(Action.LEAVE_OUT, termination, str(cavity), lead, then)

    def put_in(self, termination: str, cavity: str, lead: str, then: str = "") -> None:
        row = self._rows.get(termination)
        if row is not None and cavity.isdecimal() and 1 <= int(cavity) <= len(row):
            row[int(cavity) - 1] = lead
        if self._parked == lead:
            self._parked = None
        self._add(Action.PUT_IN, termination, cavity, lead, f"; push, click, gentle pull{then}")

    def work(self, action: Action, termination: str, cavity: str, lead: str, then: str = "") -> None:
        """Strip, crimp or solder one end."""
        self._add(action, termination, cavity, lead, then)

    def cut(self, termination: str, lead: str, words: str) -> None:
        self._step(Action.CUT, termination, None, lead, words)

    def _add(self, action: Action, termination: str, cavity: str, lead: str, then: str) -> None:
        place = self._place(termination, cavity)
        end = self._ends[termination]
        housing = self._housing(termination, action)
        words = f"{end.name}: {_DO[action].format(lead=lead, cavity=cavity)}"
        words += f" of the {housing} housing" if housing else ""
        if place is not None and action in (Action.TAKE_OUT, Action.PUT_IN, Action.LEAVE_OUT):
            words += f" ({ordinal(place)} from the mark"
            left = from_left(end, place)
            words += f", {ordinal(left)} from the left, release side towards you, leads down)" if left else ")"
        self._step(action, termination, cavity, lead, words + then)

    def _step(self, action: Action, termination: str, cavity: str | None, lead: str, words: str) -> None:
        end = self._ends[termination]
        place = None if cavity is None else self._place(termination, cavity)
        out = action in (Action.TAKE_OUT, Action.LEAVE_OUT)
        self.steps.append(
            Step(
                number=len(self.steps) + 1,
                action=action,
                end=end.name,
                cavity=cavity,
                from_mark=place,
                from_left=from_left(end, place),
                lead=lead,
                listed=not lead.startswith(SPARE),
                colour=self._colours.get(lead),
                occupancy=tuple(self._old[termination]) if out and termination in self._old else self.row(termination),
                parked=self._parked,
                words=words,
                housing="" if cavity is None else self._housing(termination, action),
            )
        )

    def _housing(self, termination: str, action: Action) -> str:
        if termination not in self._old:
            return ""
        return {Action.TAKE_OUT: "old", Action.LEAVE_OUT: "old", Action.PUT_IN: "new"}.get(action, "")

    def _place(self, termination: str, cavity: str) -> int | None:
        end = self._ends[termination]
        row = self._rows.get(termination)
        if row is None or not end.has_plug or not cavity.isdecimal() or not 1 <= int(cavity) <= len(row):
            return None
        return int(cavity)


def ordinal(number: int) -> str:
    if 10 <= number % 100 <= 20:
        return f"{number}th"
    return f"{number}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th') }"
