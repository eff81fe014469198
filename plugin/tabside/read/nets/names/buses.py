"""What a label stands for: one net, or a bus of several, and how buses of different labels match member by member."""

import re
from collections.abc import Mapping
from typing import NamedTuple

from tabside.model.escapes import unescape
from tabside.read.kicad.labels import net_text

NET, VECTOR, GROUP = "net", "vector", "group"
NO_TEXT = "<NO NET>"  # KiCad's name for what an empty label names

_VECTOR = r"(?P<prefix>(?:[~^_]\{|[^{ \]\[])*)\[(?P<first>\d*)\.\.(?P<last>\d*)\](?P<suffix>[}+\-PN]*)"
_MARKS = ("~", "^", "_")  # before a brace: overbar, raised, lowered
_OPENING = r"[~^_]\{"
_PREFIX_WITH_MARKS = r"(?:[~^_]\{|[^{ \]\[])*+(?=\{)"  # KiCad 10
_MOST_DIGITS = 9  # a longer number is counted as this many nines: far above any bound


class BusRules(NamedTuple):
    """How bus texts are read: the project's aliases, and whose rules count."""

    aliases: Mapping[str, tuple[str, ...]] = {}
    kicad: int = 9

    @property
    def marks_stay(self) -> bool:
        """KiCad 10: overbars, raised and lowered text belong to the members' names, and may stand in a prefix."""
        return self.kicad >= 10

    @property
    def members_by_place(self) -> bool:
        """KiCad 10: what bears no member's name in a group is the member that stands at its own place in its bus."""
        return self.kicad >= 10


class Range(NamedTuple):
    """A bus such as "D[0..7]" before its members are made."""

    prefix: str
    suffix: str
    first: int  # not above last
    last: int


def range_of(text: str, marks_stay: bool = False) -> Range | None:
    """The range that a label names; None when it names none.

    Overbars, raised and lowered text do not reach the members, unless they are to stay: "~{D}[0..1]" has D0 and D1,
    or ~{D}0 and ~{D}1.
    """
    if "[" not in text:
        return None
    found = re.fullmatch(_VECTOR, text)
    if found is None:
        return None
    prefix, suffix = found["prefix"], found["suffix"]
    if len(re.findall(_OPENING, prefix)) != prefix.count("}") + suffix.count("}"):
        return None
    if not marks_stay:
        prefix, suffix = (re.sub(_OPENING, "", part).replace("}", "") for part in (prefix, suffix))
    first, last = sorted((_number(found["first"]), _number(found["last"])))
    return None if first == last else Range(prefix, suffix, first, last)


def _number(digits: str) -> int:
    plain = digits.lstrip("0")
    return 10**_MOST_DIGITS if len(plain) > _MOST_DIGITS else int(plain or 0)


def parse_vector(text: str, marks_stay: bool = False) -> tuple[str, list[str]] | None:
    """(prefix, members) of a bus such as "D[0..7]", members ascending; None when the text is no such bus."""
    found = range_of(text, marks_stay)
    if found is None:
        return None
    return found.prefix, [f"{found.prefix}{n}{found.suffix}" for n in range(found.first, found.last + 1)]


def group_of(text: str, marks_stay: bool = False) -> tuple[str, list[str]] | None:
    """(prefix, members) of a bus such as "USB{DP DM}", members as written; None when the text is no such bus.

    The prefix takes no overbar, and the members' own are dropped as in vectors, unless they are to stay.
    """
    opening = _opening(text, marks_stay)
    if opening is None:
        return None
    prefix = text[:opening]
    members: list[str] = []
    member, depth = "", 0
    for i in range(opening + 1, len(text)):
        c = text[i]
        if c == "{":
            if text[i - 1] not in _MARKS:
                return None
            member = member + c if marks_stay else member[:-1]
            depth += 1
        elif c == "}":
            if not depth:
                return prefix, [m for m in (*members, member) if m]
            depth -= 1
            member += c if marks_stay else ""
        elif c in " ,":
            members.append(member)
            member = ""
        else:
            member += c
    return None


def _opening(text: str, marks_stay: bool) -> int | None:
    """Where the brace of a group stands, None when there is none or no group can begin so."""
    if marks_stay:
        found = re.match(_PREFIX_WITH_MARKS, text)
        prefix = found[0] if found else ""
        return len(prefix) if found and len(re.findall(_OPENING, prefix)) == prefix.count("}") else None
    opening = text.find("{")
    prefix = text[:opening]
    return None if opening < 0 or prefix[-1:] in _MARKS or any(c in " []}" for c in prefix) else opening


class Origin(NamedTuple):
    """Where a name counts: the sheet instance that it was given on, and the path put before it."""

    sheet: int
    path: str  # "" for names that count everywhere and for names made from pins


class Connection:
    """What one piece of the drawing is: a net by name, or a bus of named members.

    `local_name` and the places of the members stay as drawn when the name is replaced by a better one from elsewhere,
    since buses are matched by them.
    """

    __slots__ = (
        "full",
        "kind",
        "local_name",
        "members",
        "name",
        "number",
        "origin",
        "prefix",
        "rules",
        "short",
        "suffix",
    )

    def __init__(self, origin: Origin, text: str, rules: BusRules, prefix: str = "") -> None:
        self.origin, self.rules = origin, rules
        self.suffix = ""
        self.number = 0  # a vector's members are counted from 0
        self._read(text, rules, prefix)

    @classmethod
    def net(cls, origin: Origin, name: str, rules: BusRules) -> "Connection":
        """One net, even if the name looks like a bus."""
        net = cls(origin, "", rules)
        net.name = name
        net.refresh()
        return net

    def _read(self, text: str, rules: BusRules, prefix: str) -> None:
        self.name = self.local_name = text
        self.prefix = prefix
        self.kind = NET
        self.members: list[Connection] = []
        if "[" in text or "{" in text:
            plain = unescape(text)
            if vector := parse_vector(plain, rules.marks_stay):
                self._read_vector(vector[1], rules)
            elif group := group_of(plain, rules.marks_stay):
                self._read_group(*group, rules)
        self.refresh()

    @property
    def prefix_as_drawn(self) -> str:
        """What a group puts before the names of its members; to be asked before any `take`."""
        return self.prefix if self.kind is not GROUP else ""

    def _read_vector(self, names: list[str], rules: BusRules) -> None:
        self.kind = VECTOR
        for number, name in enumerate(names):
            member = Connection(self.origin, "", rules, self.prefix)
            member.name = member.local_name = name
            member.number = number
            member.refresh()
            self.members.append(member)

    def _read_group(self, prefix: str, names: list[str], rules: BusRules) -> None:
        self.kind = GROUP
        if prefix:
            self.prefix = f"{self.prefix}{prefix}."
        for name in names:
            for text in rules.aliases.get(name, (name,)):
                self.members.append(Connection(self.origin, net_text(text), rules, self.prefix))

    @property
    def is_bus(self) -> bool:
        return self.kind is not NET

    def refresh(self) -> None:
        prefix = self.prefix if self.kind is not GROUP else ""
        self.short = f"{prefix}{self.name}{self.suffix}" if self.name else NO_TEXT
        self.full = self.origin.path + self.short

    def set_suffix(self, suffix: str) -> None:
        """Tell this name from an equal one elsewhere, and with it those of the members."""
        self.suffix = suffix
        self.refresh()
        for member in self.members:
            member.set_suffix(suffix)

    def rename(self, text: str, rules: BusRules) -> None:
        """Read it anew from another label text."""
        self._read(text, rules, "")

    def take(self, other: "Connection") -> None:
        """Become what `other` is, member by member: vectors by place, groups by the name that was drawn.

        In KiCad 10 a vector's member that has no namesake in the group becomes the one at its place.
        """
        if other is self:
            return
        self.origin, self.name, self.prefix, self.suffix = other.origin, other.name, other.prefix, other.suffix
        if not self.local_name:
            self.local_name = other.local_name
        if not self.members:
            self.members = other.members
        elif other.kind is VECTOR:
            for mine, theirs in zip(self.members, other.members, strict=False):
                mine.take(theirs)
        elif other.kind is GROUP:
            by_name: dict[str, Connection] = {}
            for member in other.members:
                by_name.setdefault(member.local_name, member)
            by_place = other.inmost_members() if self.rules.members_by_place and self.kind is VECTOR else []
            for place, mine in enumerate(self.members):
                match = by_name.get(mine.local_name) or (by_place[place] if place < len(by_place) else None)
                if match is not None:
                    mine.take(match)
        self.kind = other.kind
        self.refresh()

    def member_like(self, wanted: "Connection") -> "Connection | None":
        """The member of this bus that stands where `wanted` stands in its own."""
        if self.kind is VECTOR:
            number = wanted.number
            if number < len(self.members) and self.members[number].number == number:
                return self.members[number]
            return next((m for m in self.members if m.number == number), None)
        for member in self.members:
            if member.kind is VECTOR:
                for inner in member.members:
                    if inner.local_name == wanted.local_name:
                        return inner
            elif member.local_name == wanted.local_name:
                return member
        if self.rules.members_by_place:
            inmost = self.inmost_members()
            return inmost[wanted.number] if wanted.number < len(inmost) else None
        return None

    def inmost_members(self) -> list["Connection"]:
        """Its members, those of a vector in it one by one."""
        return [inner for member in self.members for inner in (member.members or [member])]

    def all_members(self) -> list["Connection"]:
        """Its members and, for a bus within a bus, theirs."""
        found: list[Connection] = []
        for member in self.members:
            found.append(member)
            found += member.all_members()
        return found
