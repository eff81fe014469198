"""What the rows of a table say: plugs with their contacts; what is not understood is told, never guessed."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from tabside.boards.tables.read_plug import (
    Heading,
    ReadPlug,
    are_signals,
    begins_with_signal,
    family_in,
    heading,
    some_are_signals,
)
from tabside.boards.tables.rows import Row
from tabside.errors import TabsideError
from tabside.read.craft.board_file import MOST_PLUGS, MOST_WAYS
from tabside.words.contacts import plural

# Words at the head of a column, without blanks and stops.
_CONTACT = re.compile(r"(?:pin|contact)(?:no|nr|number|#)?|no|nr|#|n°|num|number|pos|position|pad|cavity|way")
_SIGNAL = re.compile(r"(?:signal|pin|pad)?name|signal|function|label|net|description|assignment|meaning|designation")
_PLUG = re.compile(r"(?:plug|connector)(?:name)?|port|header|interface|socket|conn|receptacle")
_FAMILY = re.compile(r"(?:plug|connector)?(?:family|type)|series")
_NUMBERED = re.compile(
    r"(?:pin|contact|pad|no\.?|nr\.?|#)?\s*#?(\d{1,3})(?:\s*[.:)=]\s*|\s+[-–]\s+|\s+)(.+)\Z", re.IGNORECASE
)
_BRACKETED = re.compile(r"(\([^()]*\))\s*[.:=–-]\s*(.+)\Z")
_NAMED = re.compile(r"([^|,;:]{1,60}):\s+(.+)\Z")
_RULE = re.compile(r"[\s:|=+*-]*\Z")


class Columns(NamedTuple):
    """Where a table keeps what."""

    contact: int
    signal: int
    plug: int | None
    family: int | None


@dataclass
class Reading:
    """What was understood of a table, and what not."""

    file: str
    plugs: list[ReadPlug] = field(default_factory=list)
    not_read: list[str] = field(default_factory=list)
    assumed: list[str] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)  # whole columns


def read_rows(rows: Sequence[Row], file: str) -> Reading:
    """The plugs that the rows describe.

    Raises: TabsideError with the place when contacts are missing or there twice, or when there is no plug at all.
    """
    reader = _Reader(Reading(file))
    for row in rows:
        reader.take(row)
    found = reader.finished()
    if not found.plugs:
        what = "has no pinout that is understood; write lines such as `1 5V`, or a table with columns pin and signal"
        raise TabsideError(what, file=file)
    if len(found.plugs) > MOST_PLUGS:
        raise TabsideError(f"has more than {MOST_PLUGS} plugs; part it by boards", file=file)
    for plug in found.plugs:
        if max(plug.contacts) > MOST_WAYS:
            raise TabsideError(f"{plug.at}: {plug.name} has a contact above {MOST_WAYS}; correct it", file=file)
        plug.names(file)
    _own_names(found)
    return found


class _Reader:
    def __init__(self, reading: Reading) -> None:
        self.reading = reading
        self._columns: Columns | None = None
        self._across: Mapping[int, int] | None = None  # column -> contact, in a table with a row for each plug
        self._heading: Row | None = None
        self._plug: ReadPlug | None = None
        self._named = ""  # what the plug column said last
        self._section = ""

    def take(self, row: Row) -> None:
        if row.section != self._section:
            self._section, self._columns, self._across = row.section, None, None
        if not row.cells:
            self.end_block()
        elif len(row.cells) > 1 and all(_RULE.match(cell) for cell in row.cells):
            pass  # the line under a table's head
        elif len(row.cells) > 1 and (columns := _columns(row.cells)) is not None:
            self._end_plug()
            self._columns, self._across, self._named = columns, None, ""
            others = [cell for k, cell in enumerate(row.cells) if k not in columns and cell]
            if others:
                self.reading.left_out.append(f"{row.at}: the {plural(len(others), 'column')} {', '.join(others)}")
        elif len(row.cells) > 2 and (across := _across(row.cells)) is not None:
            self._end_plug()
            self._columns, self._across = None, across
        elif self._columns is not None and (len(row.cells) > 1 or _number(row.cells[0]) is not None):
            self._of_table(row, self._columns)
        elif self._across is not None and len(row.cells) > 1:
            self._of_plug(row, row.cells[0], {c: row.cells[k] for k, c in self._across.items() if k < len(row.cells)})
        else:
            self._of_line(row)

    def finished(self) -> Reading:
        self._drop_heading()
        return self.reading

    def _drop_heading(self) -> None:
        if self._heading is not None:
            self.reading.not_read.append(f"{self._heading.at}: {self._heading.text}")

    def end_block(self) -> None:
        """A blank line ends a plug, and a table that has begun."""
        self._end_plug()
        if self._heading is None:
            self._columns, self._across = None, None

    def _end_plug(self) -> None:
        self._plug = None

    def _begin(self, words: str, at: str) -> ReadPlug:
        """A plug that these words name, or the heading above it."""
        head = heading(words) if words else None
        if self._heading is not None:
            above = heading(self._heading.text)
            head = above if head is None else head.or_else(above)
            self._heading = None
        head = head or Heading("", None, None, False)
        plug = ReadPlug(head.name, at, head.family, head.ways, pads=head.pads)
        self.reading.plugs.append(plug)
        return plug

    def _of_table(self, row: Row, columns: Columns) -> None:
        cells = [*row.cells, *[""] * 20]
        number = _number(cells[columns.contact])
        named = cells[columns.plug] if columns.plug is not None else ""
        if named and named != self._named:
            self._named, self._plug = named, None
        if number is None:
            self.reading.not_read.append(f"{row.at}: {row.text}")
            return
        if self._plug is None or (number == 1 and 1 in self._plug.contacts and columns.plug is None):
            self._plug = self._begin(self._named or row.section, row.at)
        family = cells[columns.family] if columns.family is not None else ""
        self._plug.family = self._plug.family or (family_in(family) if family else None)
        self._plug.add(number, cells[columns.signal], row.at, self.reading.file)

    def _of_plug(self, row: Row, name: str, contacts: Mapping[int, str]) -> None:
        plug = self._begin(name, row.at)
        highest = max((number for number, text in contacts.items() if text), default=0)
        for number in range(1, highest + 1):
            plug.add(number, contacts.get(number, ""), row.at, self.reading.file)
        if not plug.contacts:
            self.reading.plugs.remove(plug)
            self.reading.not_read.append(f"{row.at}: {row.text}")

    def _of_line(self, row: Row) -> None:
        numbered = _numbered(row)
        if numbered is None and self._plug is not None and self._plug.numbered:
            number = _number(row.cells[0].rstrip(" :=-–"))
            numbered = None if number is None else (number, "")  # refused: a contact without a name
        if numbered is not None:
            number, text = numbered
            if self._plug is None or not self._plug.numbered or (number == 1 and 1 in self._plug.contacts):
                self._plug = self._begin(row.section, row.at)
            self._plug.add(number, text, row.at, self.reading.file)
            return
        named, texts = _in_a_row(row, headed=self._heading is not None)
        if texts:
            plug = self._begin(named, row.at)
            plug.numbered = False
            for number, text in enumerate(texts, 1):
                plug.add(number, text, row.at, self.reading.file)
            self._plug = None
            return
        self._drop_heading()
        self._end_plug()
        self._columns, self._across = None, None
        self._heading = row


def _number(cell: str) -> int | None:
    found = re.fullmatch(r"(?:pin|contact|pad|no\.?)?\s*#?(\d{1,3})[.:)]?", cell.strip(), re.IGNORECASE)
    return int(found[1]) if found else None


def _numbered(row: Row) -> tuple[int, str] | None:
    """A contact's number and name: `1 5V`, `pin 1: 5V`, `1 | 5V`."""
    if len(row.cells) > 1:
        number = _number(row.cells[0])
        return None if number is None else (number, " , ".join(cell for cell in row.cells[1:] if cell))
    found = _NUMBERED.match(row.cells[0].lstrip("-*• "))
    if found is None:
        return None
    if not found[2].strip(" :=.)"):
        return int(found[1]), ""
    colour = _BRACKETED.match(found[2])  # `Pin 1 (red) = VCC`: what stands in brackets is no name
    return int(found[1]), f"{colour[2]} {colour[1]}" if colour else found[2]


def _in_a_row(row: Row, *, headed: bool) -> tuple[str, list[str]]:
    """The name and the signals of a plug in one line; no signals when the line is something else."""
    named = _NAMED.match(row.cells[0])
    if len(row.cells) > 1:
        cells = list(row.cells)
        if named is not None:
            name, texts = named[1].strip(), [named[2], *cells[1:]]
        elif headed or begins_with_signal(cells):
            name, texts = "", cells
        else:
            name, texts = cells[0], cells[1:]
        return (name, texts) if some_are_signals(texts) else ("", [])
    name, rest = (named[1].strip(), named[2]) if named else ("", row.cells[0])
    parted = re.search(r"[,;]", rest) is not None
    texts = [part.strip() for part in re.split(r"[,;]", rest)] if parted else rest.split()
    while texts and not texts[-1]:
        texts.pop()
    listed = some_are_signals(texts) if named and parted else are_signals(texts)
    return (name, texts) if listed else ("", [])


def _columns(cells: Iterable[str]) -> Columns | None:
    """The columns of a table's head; None when it is none."""
    keys = [re.sub(r"[\s_.:-]+", "", cell).casefold() for cell in cells]
    contact = _first(keys, _CONTACT)
    signal = _first(keys, _SIGNAL)
    if contact is None or signal is None:
        return None
    return Columns(contact, signal, _first(keys, _PLUG), _first(keys, _FAMILY))


def _first(keys: Sequence[str], wanted: re.Pattern[str]) -> int | None:
    return next((k for k, key in enumerate(keys) if wanted.fullmatch(key)), None)


def _across(cells: Sequence[str]) -> Mapping[int, int] | None:
    """Contacts by column in the head of a table with a row for each plug: `plug | 1 | 2 | 3`."""
    numbers = [_number(cell) for cell in cells[1:]]
    if _number(cells[0]) is not None or numbers != list(range(1, len(numbers) + 1)):
        return None
    return {k + 1: k + 1 for k in range(len(numbers))}


def _own_names(found: Reading) -> None:
    """Every plug has a name of its own; what had to be made up is said."""
    seen: dict[str, int] = {}
    for n, plug in enumerate(found.plugs, 1):
        if not plug.name:
            plug.name = f"plug {n}"
            found.assumed.append(f"{plug.at}: this plug has no name; it is called {plug.name}: write the printed one")
        found.assumed += [f"{told} of {plug.name} means not used (nc)" for told in plug.taken_as_nc]
        key = plug.name.casefold()
        seen[key] = seen.get(key, 0) + 1
        if seen[key] > 1:
            again = f"{plug.name} {seen[key]}"
            found.assumed.append(f"{plug.at}: {plug.name} is there twice; this one is called {again}")
            plug.name = again
        if not plug.numbered:
            found.assumed.append(
                f"{plug.at}: {plug.name} has no contact numbers: taken from contact 1 up. If the names were copied off "
                "a picture from left to right, add seen_from and contact_1"
            )
