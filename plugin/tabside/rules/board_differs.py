"""Drawn boards held against their board files."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contact, at_termination
from tabside.facts import families
from tabside.model.craft import Contact, Craft, HeldBoard, Termination
from tabside.model.findings import Finding, Severity, Where
from tabside.model.names import as_name, without_blanks
from tabside.model.roles import Rail, Role, RoleClass
from tabside.rules.rule import check
from tabside.wiring.board_plugs import file_named
from tabside.wiring.terminations.fields import Fields
from tabside.words.contacts import counted, listed, termination_name
from tabside.words.nearest import did_you_mean

# UARTs and buses may be numbered as one likes; motors may not.
_NUMBER_MATTERS = frozenset(("motor",))
# Fields of a part from a board file: those whose values are compared by what they mean, and the others.
_BOTH_ONLY = ("Contact 1", "Entry", "Tabs", "Gives", "Takes")
_AS_WRITTEN = ("Either", "Level", "Level max", "Leads max", "Isolated")
_UPDATE = (
    "Parts from `tabside boards library`: run it again with --into, then Tools > Update Symbols from Library in KiCad."
)
_FIX = f"Look at the real board: correct the drawing, or the board file. {_UPDATE}"


class _Difference(Struct, frozen=True):
    words: str
    contact: Contact | None = None


@check("board-differs", severity=Severity.ERROR)
def board_differs(judgement: Judgement) -> Iterator[Finding]:
    """A drawn board has the plugs, contacts and facts of its board file, which was read off the maker's manual once.

    A board typed once from its manual is the measure for every place where it is drawn: a signal drawn otherwise is
    one of the two pinouts entered wrong.  Example: the board file says TX at contact 2 of TELEM, the drawing RX.

    Fix: look at the manual, and correct the drawing or the board file.
    Accept: a board that was changed by hand, with what was changed.
    Passes: the same signal under another usual name (GND, G); plugs that are not drawn; a board without a file.
    Notes: the board file has not been held against the real board.
    Warns: a drawn plug that the file does not have; a board "pilot 1" beside a file of "pilot" that nothing uses; a
    contact without a name; orientation, Gives or Takes that differ.
    Fails: another signal, family, kind or number of ways; one plug of a board drawn twice.
    Source: the board file, and the document that it names.
    """
    craft = judgement.craft
    yield from _not_named(craft)
    yield from _not_used(craft)
    drawn: dict[tuple[str, str], list[Termination]] = {}
    for termination, held, plug in craft.held_plugs():
        if plug is None:
            yield _no_such_plug(craft, termination, held)
            continue
        drawn.setdefault((termination.board, plug.reference), []).append(termination)
        yield from _held_against(craft, termination, plug, held)
    for (board, plug_name), placed in drawn.items():
        if len(placed) > 1:
            yield _twice(craft, board, plug_name, placed)
    yield from _not_held(craft)
    yield from _not_said(craft)


def _held_against(craft: Craft, drawn: Termination, plug: Termination, held: HeldBoard) -> Iterator[Finding]:
    wrong = [*_part(drawn, plug), *_contacts(drawn, plug)]
    if wrong:
        yield _finding(craft, drawn, held, wrong, Severity.ERROR)
    mild = [*_nameless(drawn, plug), *_unlike_supplies(drawn, plug), *_facts(drawn, plug)]
    if not drawn.board_stated:
        mild.append(_Difference(f"it has no Board; write which {held.board.name} it is on"))
    if mild:
        yield _finding(craft, drawn, held, mild, Severity.WARNING)


def _finding(
    craft: Craft, drawn: Termination, held: HeldBoard, differences: list[_Difference], severity: Severity
) -> Finding:
    name = f"{termination_name(craft, drawn.reference)} ({drawn.value})"
    said = listed([difference.words for difference in differences], most=8)
    contacts = [difference.contact for difference in differences if difference.contact is not None]
    where = tuple(at_contact(craft, contact) for contact in contacts) or (at_termination(craft, drawn.reference),)
    return Finding(
        rule="board-differs",
        severity=severity,
        message=f"{name} differs from {held.board.file}: {said}.",
        fix=_FIX,
        where=where,
        harm=harm.SUPPLY_ON_SIGNAL if severity is Severity.ERROR else harm.DRAWING,
    )


def _part(drawn: Termination, plug: Termination) -> Iterator[_Difference]:
    """Kind, family and size."""
    if drawn.kind is not plug.kind:
        yield _Difference(f"Kind is {drawn.kind}, the board file says {plug.kind}")
    if drawn.family is not None and plug.family is not None and drawn.family != plug.family:
        a, b = (families.family(id_).title for id_ in (drawn.family, plug.family))
        yield _Difference(f"Family is {a}, the board file says {b}")
    ways = len(plug.contacts)
    if drawn.takes_plug and drawn.ways is not None and drawn.ways != ways:
        yield _Difference(f"it is drawn with {counted(drawn.ways, 'contact')}, the board file has {ways}")


def _contacts(drawn: Termination, plug: Termination) -> Iterator[_Difference]:
    """Contacts that are another signal, or are not there."""
    of_file = {contact.number: contact for contact in plug.contacts}
    for contact in drawn.contacts:
        other = of_file.get(contact.number)
        if other is None:
            if not drawn.takes_plug or drawn.ways == len(plug.contacts):
                yield _Difference(f"contact {contact.number} is not in the board file", contact)
        elif contact.label and not other.label and other.flagged_empty:
            yield _Difference(f"contact {contact.number} is {contact.label}, the board file says not used", contact)
        elif contact.label and other.label and not _same(contact, other) and not _unsure(contact, other):
            words = f"contact {contact.number} is {contact.label}, the board file says {other.label}"
            yield _Difference(words, contact)


def _nameless(drawn: Termination, plug: Termination) -> Iterator[_Difference]:
    of_file = {contact.number: contact for contact in plug.contacts}
    for contact in drawn.contacts:
        other = of_file.get(contact.number)
        if other is not None and other.label and not contact.label and not contact.flagged_empty:
            yield _Difference(f"contact {contact.number} has no name, the board file says {other.label}", contact)


def _unlike_supplies(drawn: Termination, plug: Termination) -> Iterator[_Difference]:
    of_file = {contact.number: contact for contact in plug.contacts}
    for contact in drawn.contacts:
        other = of_file.get(contact.number)
        if other is not None and contact.label and other.label and _unsure(contact, other):
            words = f"contact {contact.number} is called {contact.label}, in the board file {other.label}"
            yield _Difference(words, contact)


def _same(a: Contact, b: Contact) -> bool:
    return without_blanks(a.label) == without_blanks(b.label) or _same_role(a.role, b.role)


def _same_role(a: Role, b: Role) -> bool:
    """Whether two names mean one thing for sure."""
    if not (a.judged and b.judged) or a.cls is not b.cls:
        return False
    if a.cls is RoleClass.SUPPLY:
        return a.battery == b.battery and (a.volts == b.volts is not None or (a.battery and a.volts == b.volts))
    if a.cls is RoleClass.SIGNAL:
        numbered = a.index == b.index or (a.group not in _NUMBER_MATTERS and None in (a.index, b.index))
        alike = (a.group, a.line, a.name, a.direction) == (b.group, b.line, b.name, b.direction)
        return bool(a.group) and alike and numbered
    return a.cls is RoleClass.GROUND


def _unsure(a: Contact, b: Contact) -> bool:
    """Two supplies under other names, of which one does not say its voltage."""
    if _same(a, b) or not (a.role.is_supply and b.role.is_supply) or a.role.battery != b.role.battery:
        return False
    return a.role.volts is None or b.role.volts is None


def _facts(drawn: Termination, plug: Termination) -> Iterator[_Difference]:
    """Orientation and rails, where both say something; of a part from the file also where only one does."""
    if file_named(drawn):
        yield from _fields_of_one(drawn, plug)
    pairs = (("Contact 1", drawn.contact_1, plug.contact_1), ("Entry", drawn.entry, plug.entry))
    for name, a, b in (*pairs, ("Tabs", drawn.tabs, plug.tabs)):
        if a is not None and b is not None and a != b:
            yield _Difference(f"{name} is {a}, the board file says {b}")
    for name, own, other in (("Gives", drawn.gives, plug.gives), ("Takes", drawn.takes, plug.takes)):
        texts = ["; ".join(rail.text for rail in rails) for rails in (own, other)]
        if own and other and set(map(_rail, own)) != set(map(_rail, other)):
            yield _Difference(f"{name} is {texts[0]}, the board file says {texts[1]}")


def _fields_of_one(drawn: Termination, plug: Termination) -> Iterator[_Difference]:
    """What was put into the file, or taken out of it, since the part was made."""
    own, other = Fields(drawn.fields), Fields(plug.fields)
    if not any(own.text(name) for name in (*_BOTH_ONLY, *_AS_WRITTEN)):
        return  # a symbol drawn by hand that leaves such things to the file
    for name in (*_BOTH_ONLY, *_AS_WRITTEN):
        a, b = own.text(name) or _of_footprint(drawn, name), other.text(name) or _of_footprint(plug, name)
        if bool(a) != bool(b) or (name in _AS_WRITTEN and without_blanks(a) != without_blanks(b)):
            yield _Difference(f"{name} is {a or 'empty'}, the board file says {b or 'nothing'}")


def _of_footprint(termination: Termination, name: str) -> str:
    """What its footprint says instead of the field."""
    said = {"Contact 1": termination.contact_1, "Entry": termination.entry, "Tabs": termination.tabs}
    return said.get(name) or ""


def _rail(rail: Rail) -> tuple[object, ...]:
    """A rail without the way in which it is written."""
    return (rail.volts, rail.battery, rail.max_a, rail.typical_a, rail.contact)


def _no_such_plug(craft: Craft, termination: Termination, held: HeldBoard) -> Finding:
    names = [plug.reference for plug in held.plugs]
    hint = did_you_mean(termination.value, names, f"it has {listed(names, most=12)}", quote="")
    return Finding(
        rule="board-differs",
        severity=Severity.WARNING,
        message=f"{termination_name(craft, termination.reference)} is called {termination.value or 'nothing'}; "
        f"{held.board.file} has no plug of that name; {hint}",
        fix="Write the plug's name of the board file into the symbol's Value, or add the plug to the board file.",
        where=(at_termination(craft, termination.reference),),
        harm=harm.DRAWING,
    )


def _twice(craft: Craft, board: str, plug_name: str, placed: list[Termination]) -> Finding:
    references = listed([termination.reference for termination in placed])
    return Finding(
        rule="board-differs",
        severity=Severity.ERROR,
        message=f"{board} has one plug {plug_name}, but {references} are both drawn as it.",
        fix="Where they are two boards of one kind, give each its own Board (driver 1, driver 2) and leave Board file "
        "as it is; else remove one.",
        where=tuple(at_termination(craft, termination.reference) for termination in placed),
        harm=harm.CANNOT_BE_BUILT,
    )


def _not_named(craft: Craft) -> Iterator[Finding]:
    """A symbol names a board file that the craft file does not."""
    known = {as_name(held.board.name): held.board.name for held in craft.board_files}
    missing: dict[str, list[Termination]] = {}
    for termination in craft.terminations.values():
        named = file_named(termination)
        if named and as_name(named) not in known:
            missing.setdefault(named, []).append(termination)
    for named, placed in missing.items():
        near = did_you_mean(named, known.values())
        hint = f"; {near}" if near else ""
        names = "names" if len(placed) == 1 else "name"
        missing_in = "no file of board_files is of that board" if known else "the craft file names none"
        yield Finding(
            rule="board-differs",
            severity=Severity.WARNING,
            message=f"{listed([end.reference for end in placed])} {names} the board file {named}, but {missing_in}"
            f"{hint}, so nothing is held against it.",
            fix="Put the file of the board where board_files leads, or correct Board file."
            if known
            else 'Name the files under [craft] in the craft file, for example board_files = ["boards/*.board.toml"].',
            where=tuple(at_termination(craft, termination.reference) for termination in placed),
            harm=harm.NOTHING,
        )


def _not_used(craft: Craft) -> Iterator[Finding]:
    """A board whose name begins as that of a file that nothing is held against: the name alone holds nothing."""
    used = {as_name(held.board.name) for held in craft.held_boards.values()}
    for file in (held.board for held in craft.board_files if as_name(held.board.name) not in used):
        name = as_name(file.name)
        ends = [
            end
            for end in craft.terminations.values()
            if end.board_stated and end.board not in craft.held_boards and as_name(end.board).startswith(name)
        ]
        if name and ends:
            boards = list(dict.fromkeys(end.board for end in ends))
            yield Finding(
                rule="board-differs",
                severity=Severity.WARNING,
                message=f"{file.file} is of {file.name}, and the drawing has no board of that name but"
                f" {listed(boards)}: nothing is held against it.",
                fix=f"If it is that board, give its plugs the field Board file with the value {file.name}.",
                where=tuple(at_termination(craft, end.reference) for end in ends),
                harm=harm.NOTHING,
            )


def _not_held(craft: Craft) -> Iterator[Finding]:
    boards = {name: held for name, held in craft.held_boards.items() if not held.board.held}
    files = sorted({held.board.file for held in boards.values()})
    if files:
        yield Finding(
            rule="board-differs",
            severity=Severity.NOTE,
            message=f"Not held against the real board yet: {listed(files, most=12)}.",
            fix="Hold `tabside boards show FILE --to PAGE.html` against the real board, then write held = true.",
            where=tuple(Where(board=name) for name in boards),
            harm=harm.NOTHING,
        )


def _not_said(craft: Craft) -> Iterator[Finding]:
    """Contacts of own boards whose signal their projects do not say, counted."""
    boards = {held.board.name: held.board for held in craft.held_boards.values()}
    unknown = [(name, plug) for name, board in boards.items() for plug in board.plugs if plug.unknown]
    if unknown:
        count = sum(len(plug.unknown) for _, plug in unknown)
        where = [f"{name} {plug.name}:{','.join(map(str, plug.unknown))}" for name, plug in unknown]
        yield Finding(
            rule="board-differs",
            severity=Severity.NOTE,
            message=f"The projects of own boards do not say what {counted(count, 'contact')} is: {listed(where)}.",
            fix="Name the nets at these connectors in the boards' projects, by labels.",
            where=tuple(Where(board=name) for name in dict.fromkeys(name for name, _ in unknown)),
            harm=harm.NOTHING,
        )
