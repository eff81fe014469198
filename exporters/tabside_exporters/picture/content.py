"""What the picture shows: boards with their plugs, cables with their ends, and what is noted at each of them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from enum import StrEnum
from types import MappingProxyType

from msgspec import Struct, field

from tabside.analysis.joined.part_plugs import packs
from tabside.facts import families
from tabside.model.craft import Craft, Kind, Termination
from tabside.model.natural import natural
from tabside.words.contacts import counted
from tabside_exporters.formats.cells import clean

_IN_BRACKETS = re.compile(r" *\([^)]*\)")
_SMALL = (Kind.SPLICE, Kind.INLINE)


class Mark(Struct, frozen=True):
    """A finding at a cable, plug or board."""

    kind: str  # "error", "warning", "accepted"
    number: str  # as it stands in the mark
    words: str  # for those who cannot see it: "error 3"
    link: str = ""


class Note(Struct, frozen=True):
    """What is said at one thing of the picture."""

    lines: tuple[str, ...] = ()
    link: str = ""
    marks: tuple[Mark, ...] = ()
    strong: bool = False  # drawn heavy
    dashed: bool = False


NO_NOTE = Note()
_NONE: Mapping[str, Note] = MappingProxyType({})


class Notes(Struct, frozen=True):
    """Notes by cable label, by termination's reference and by board's name."""

    cables: Mapping[str, Note] = field(default_factory=lambda: _NONE)
    plugs: Mapping[str, Note] = field(default_factory=lambda: _NONE)
    boards: Mapping[str, Note] = field(default_factory=lambda: _NONE)


class PlugShown(Struct, frozen=True):
    reference: str
    text: str  # "J3: JST GH, 6-way"
    note: Note


class BoardShown(Struct, frozen=True):
    name: str
    plugs: tuple[PlugShown, ...]  # those that cables meet, in natural order; () when the board is one termination
    references: tuple[str, ...]  # of all its terminations that cables meet
    unused: tuple[str, ...]  # references that no cable meets
    note: Note
    is_start: bool  # power starts here: a pack


class Shown(StrEnum):
    BOARD = "board"  # by its name
    PLUG = "plug"  # by its reference
    CABLE = "cable"  # by its label


Thing = tuple[Shown, str]  # what a box or a mark belongs to


class CableShown(Struct, frozen=True):
    label: str  # "C3", "W14 W15"
    title: str  # what fits: "C3", "W14 to W19"
    ends: tuple[str, ...]  # references
    note: Note


class Content(Struct, frozen=True):
    boards: tuple[BoardShown, ...]
    cables: tuple[CableShown, ...]


class Run(Struct, frozen=True):
    """A cable, or the loose wires of one link."""

    label: str  # as on the plan's sheet
    is_cable: bool
    marks: tuple[str, ...]
    ends: tuple[str, ...]


def runs_of(craft: Craft) -> tuple[Run, ...]:
    """All that joins two places: cables in mark order, then loose wires by link."""
    return tuple(_runs(craft))


def _runs(craft: Craft) -> Iterator[Run]:
    for cable in craft.cables:
        yield Run(cable.mark, True, cable.leads, cable.ends)
    for link in craft.links:
        loose = tuple(lead.mark for lead in link.leads if lead.cable is None)
        if loose:
            yield Run(" ".join(loose), False, loose, tuple(dict.fromkeys(link.ends)))


def content_of(craft: Craft, notes: Notes) -> Content:
    """The craft as it stands, each thing with its note."""
    runs = runs_of(craft)
    met = {reference for run in runs for reference in run.ends}
    live = packs(craft)
    by_board: dict[str, list[Termination]] = {}
    for termination in craft.terminations.values():
        by_board.setdefault(termination.board, []).append(termination)
    boards = tuple(_board(name, found, met, notes, name in live) for name, found in by_board.items())
    cables = tuple(
        CableShown(run.label, clean(short_label(run)), run.ends, _told(run, notes.cables.get(run.label, NO_NOTE)))
        for run in runs
    )
    return Content(boards, cables)


def short_label(run: Run) -> str:
    """The label as far as it fits: "W14 to W19" for wires in a row."""
    marks = run.marks
    if run.is_cable or len(marks) <= 2:
        return run.label if run.is_cable else ", ".join(marks)
    numbers = [int(mark[1:]) for mark in marks if mark[1:].isdecimal()]
    in_a_row = len(numbers) == len(marks) and sorted(numbers) == list(range(min(numbers), max(numbers) + 1))
    return f"{marks[0]} to {marks[-1]}" if in_a_row else f"{marks[0]} and {len(marks) - 1} more"


def _told(run: Run, note: Note) -> Note:
    lines = tuple(clean(line) for line in (counted(len(run.marks), "wire"), *note.lines))
    return Note(lines, note.link, note.marks, note.strong, note.dashed)


def _board(name: str, found: list[Termination], met: set[str], notes: Notes, is_start: bool) -> BoardShown:
    found = sorted(found, key=lambda part: natural(part.reference))
    wired = [termination for termination in found if termination.reference in met]
    single = len(found) == 1 and (found[0].reference == name or found[0].kind in _SMALL)
    plugs = tuple(
        PlugShown(
            termination.reference, clean(_plug_words(termination)), notes.plugs.get(termination.reference, NO_NOTE)
        )
        for termination in wired
    )
    own = notes.boards.get(name, NO_NOTE)
    if single:  # the plug's note stands at the board itself
        of_plug = notes.plugs.get(found[0].reference, NO_NOTE)
        own = Note((*own.lines, *of_plug.lines), own.link, (*own.marks, *of_plug.marks), own.strong or of_plug.strong)
    return BoardShown(
        name=clean(
            f"{name} ({found[0].value})" if single and found[0].kind is Kind.INLINE and found[0].value else name
        ),
        plugs=() if single else plugs,
        references=tuple(termination.reference for termination in wired),
        unused=()
        if single and wired
        else tuple(clean(termination.reference) for termination in found if termination.reference not in met),
        note=own,
        is_start=is_start,
    )


def _plug_words(termination: Termination) -> str:
    if termination.kind is Kind.PAD:
        return f"{termination.reference}: pads"
    if termination.kind in _SMALL:
        return f"{termination.reference}: {termination.kind.value}"
    ways = termination.ways or len(termination.contacts)
    if termination.family is None:
        bare = termination.kind is Kind.CAPTIVE
        return f"{termination.reference}: {'own wires' if bare else 'plug not known'}"
    title = _IN_BRACKETS.sub("", families.family(termination.family).title)
    return f"{termination.reference}: {title}, {ways}-way"
