"""One plug as read from a table, and what its words say: name, family, size."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import NamedTuple

from tabside.errors import TabsideError
from tabside.facts import families
from tabside.facts.labels.roles import read_label
from tabside.model.names import as_one_word
from tabside.words.contacts import counted

_SIZE = re.compile(r"\b(\d{1,3})[ -]?(?:pins?|ways?|pos(?:itions?)?|p|contacts?)\b", re.IGNORECASE)
_VOLTS = re.compile(r"[+-]?\d+(?:\.\d+)?(?:\.\.|-|to)?(?:\d+(?:\.\d+)?)?\s*V\Z", re.IGNORECASE)
_DIRECTION = re.compile(r"\(?(?:in|out|input|output)\)?", re.IGNORECASE)
_UNUSED = re.compile(
    r"n\.?/?c\.?|[-–—]+|\(?(?:unused|not used|not connected|no connection|no connect)\)?", re.IGNORECASE
)
# Words beside a name that say direction, level or colour.
_BESIDE = re.compile(
    r"\(?(?:in|out|input|output|i/o|in/out|bidir|analog|digital|ttl"
    r"|red|black|white|yellow|green|blue|brown|orange|gr[ae]y|violet|purple|pink)\)?",
    re.IGNORECASE,
)


@dataclass
class ReadPlug:
    """A plug in the reading."""

    name: str
    at: str  # where it begins
    family: str | None = None
    said_ways: int | None = None
    contacts: dict[int, str] = field(default_factory=dict)
    numbered: bool = True
    pads: bool = False  # its heading calls it pads
    left_out: list[str] = field(default_factory=list)  # words beside names that are not taken over
    taken_as_nc: list[str] = field(default_factory=list)

    def add(self, number: int, text: str, at: str, file: str) -> None:
        """Raises: TabsideError when the contact is there already, or has no name."""
        name, rest = split_name(text)
        if _UNUSED.fullmatch(text.strip()):
            name, rest = "nc", ""
            self.taken_as_nc += [f'{at}: "{text.strip()}"'] if text.strip().casefold() != "nc" else []
        if not name:
            raise TabsideError(
                f"{at}: contact {number} of {self.name or 'the plug'} has no name; write nc if it is not used",
                file=file,
            )
        if number in self.contacts:
            raise TabsideError(f"{at}: {self.name} has contact {number} twice; correct the table", file=file)
        self.contacts[number] = name
        if rest:
            self.left_out.append(f"{at}: {rest}")

    def names(self, file: str) -> list[str]:
        """From contact 1 up.

        Raises: TabsideError when a contact is missing, or the size is not what the heading says.
        """
        highest = max(self.contacts)
        missing = [n for n in range(1, highest + 1) if n not in self.contacts]
        if missing or 0 in self.contacts:
            what = f"contact {missing[0]} is missing" if missing else "contacts count from 0"
            hint = f"write `{missing[0]} nc` if it is not used" if missing else "count them from 1"
            raise TabsideError(f"{self.at}: {self.name}: {what}; {hint}", file=file)
        if self.said_ways is not None and self.said_ways != highest:
            what = f"{self.name} is said to have {counted(self.said_ways, 'contact')}, {highest} are listed"
            raise TabsideError(f"{self.at}: {what}; correct the table", file=file)
        return [self.contacts[n] for n in range(1, highest + 1)]


def split_name(text: str) -> tuple[str, str]:
    """The name in a cell, and the words beside it that say volts, direction or colour."""
    name, mark, rest = re.sub(r"\s*(\(|,|;|\s-\s)", r"\t\1", text.strip(), count=1).partition("\t")
    if not name:
        name, mark, rest = text.strip(), "", ""
    words = name.split()
    kept = len(words)
    while kept > 1 and (_VOLTS.match(words[kept - 1]) or _BESIDE.fullmatch(words[kept - 1])):
        kept -= 1
    while kept < len(words) and _says_more(words[: kept + 1]):
        kept += 1
    if not _is_known(" ".join(words[:kept])):
        kept = len(words)  # "SAFETY SWITCH IN": nothing says that less is the name
    beside = " ".join([*words[kept:], rest.strip() if mark else ""]).strip()
    return " ".join(words[:kept]).replace(",", "/"), beside


def _says_more(words: list[str]) -> bool:
    """Whether the last word belongs to the name: VIDEO IN and VIDEO OUT are two signals, 5V OUT is 5V."""
    if not _DIRECTION.fullmatch(words[-1]):
        return False
    whole, less = read_label(" ".join(words)), read_label(" ".join(words[:-1]))
    return whole.judged and less.judged and (whole.name, whole.direction) != (less.name, less.direction)


def _is_known(text: str) -> bool:
    return read_label(text).judged


def are_signals(texts: list[str]) -> bool:
    """Whether each of these is a name of a signal or supply that Tabside knows."""
    return len(texts) > 1 and all(text.lower() == "nc" or _is_known(text) for text in texts)


def some_are_signals(texts: list[str]) -> bool:
    """Whether a list is one of signals: several, and at least one is a name that Tabside knows."""
    return len(texts) > 1 and any(_is_known(text) for text in texts)


def begins_with_signal(texts: list[str]) -> bool:
    """Whether the first of a row is a signal like the others; a port that is called TELEM is the plug's name."""
    first = read_label(texts[0])
    return first.judged and first.name != "esc_telemetry"


class Heading(NamedTuple):
    """What a line above a pinout says of its plug."""

    name: str
    family: str | None
    ways: int | None
    pads: bool

    def or_else(self, above: Heading) -> Heading:
        """With what a line further above says, where this one is silent."""
        return Heading(self.name, self.family or above.family, self.ways or above.ways, self.pads or above.pads)


def heading(text: str) -> Heading:
    """The plug's name, its family, its size, and whether it is solder pads."""
    plain = text.strip().strip("#*=_ ").rstrip(":").strip()
    size = _SIZE.search(plain)
    name = re.split(r"\s*[(\[:,;]|\s+[-–—]\s+", plain, maxsplit=1)[0].strip()
    pads = re.search(r"\b(?:solder )?pads?\b", plain, re.IGNORECASE) is not None
    return Heading(name or plain, family_in(plain), int(size[1]) if size else None, pads)


def family_in(text: str) -> str | None:
    """The one family that a text names, by its title or id; None when it names none or several."""
    all_words = as_one_word(text)
    found = {}
    for known in families.all_families():
        for word in (known.id, known.title):
            key = as_one_word(word)
            if key in all_words and families.family_by_text(word) is known:
                found[key] = known
    longest = {key: known for key, known in found.items() if not any(key != o and key in o for o in found)}
    ids = {known.id for known in longest.values()}
    if len(ids) != 1:
        return None
    known = next(iter(longest.values()))
    return known.title if families.family_by_text(known.title) is known else known.id
