"""Contacts left open although the other end of the link has their counterpart."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from tabside.analysis import harm
from tabside.analysis.joined.wired import Link
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.signal_agreement import ANY
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, ContactKey, Termination
from tabside.model.findings import Finding, Severity
from tabside.model.roles import Direction, RoleClass
from tabside.rules.rule import check
from tabside.words.contacts import link_name, listed, name_of, role_words

# Groups of several lines: none of them joined means that the group is not used at all.
_GROUPS_OF_LINES = frozenset(("uart", "i2c", "can", "spi", "usb", "swd", "motor", "rs232", "ethernet"))
# Lines that run on from board to board: an open end is missing even when the other end is in use elsewhere.
_BUSES = frozenset(("i2c", "can", "spi"))
# Of a UART only a listener may still join what another one hears; that is often meant.
_SHARED = _BUSES | {"uart"}
_FLOW_CONTROL = frozenset(("rts", "cts"))
_RAILS = (RoleClass.GROUND, RoleClass.SUPPLY)


class Missing(Struct, frozen=True):
    """A lead that one would expect and that is not there."""

    open: Contact
    counterpart: Contact
    severity: Severity
    why: str = ""


@check("not-connected", severity=Severity.WARNING)
def not_connected(judgement: Judgement) -> Iterator[Finding]:
    """What both ends of a connection have is connected: supply, ground, and the lines of a signal.

    What both plugs have and no wire connects was most likely forgotten.  Example: SDA connected and SCL not; ground
    of a sensor left out.

    Fix: connect them, or put a no-connect flag on both ends.
    Accept: ground and supply that come by another way.
    Passes: contacts without a partner; a UART's TX that feeds another board; a supply pad that is one of several;
    the minus of a buzzer that an output switches.
    Warns: supply or ground left open at an end (a no-connect flag does not quiet these); SDA connected and SCL not.
    Notes: flagged no-connect; spare parallel contacts; RTS and CTS both open; a whole bus that is not used.
    Source: common practice, no source.
    """
    told: set[ContactKey] = set()
    # Links of many leads first: an open contact is told once, where it most likely belongs.
    for link in sorted(judgement.links, key=lambda link: -len(judgement.links[link])):
        missing = []
        for gap in _missing(judgement, link):
            if gap.open.key not in told and gap.counterpart.key not in told:
                missing.append(gap)
                told |= {contact.key for contact in (gap.open, gap.counterpart) if _open(judgement, contact)}
        for severity in (Severity.WARNING, Severity.NOTE):
            some = [gap for gap in missing if gap.severity is severity]
            if some:
                yield _finding(judgement, link, severity, some)
    yield from _not_fed(judgement, told)


def _open(judgement: Judgement, contact: Contact) -> bool:
    return contact.key not in judgement.joined


def _missing(judgement: Judgement, link: Link) -> Iterator[Missing]:
    ends = [judgement.craft.terminations[reference] for reference in link]
    yield from _rails(judgement, link, ends[0], ends[1])
    yield from _rails(judgement, link, ends[1], ends[0])
    yield from _signals_open_at_both_ends(judgement, link, ends[0], ends[1])
    yield from _bus_open_at_one_end(judgement, link, ends[0], ends[1])
    yield from _bus_open_at_one_end(judgement, link, ends[1], ends[0])


def _finding(judgement: Judgement, link: Link, severity: Severity, missing: list[Missing]) -> Finding:
    craft = judgement.craft
    pairs = [
        f"{name_of(craft, gap.open)} is not connected; its partner would be {name_of(craft, gap.counterpart)}"
        + (f" ({gap.why})" if gap.why else "")
        for gap in missing
    ]
    rail = any(gap.open.role.cls in _RAILS for gap in missing)
    return Finding(
        rule="not-connected",
        severity=severity,
        message=f"{link_name(craft, link)}: {listed(pairs)}.",
        fix="Connect them, or accept it in the craft file if they are meant to stay unconnected."
        if rail
        else "Connect them, or put a no-connect flag on both.",
        where=at_contacts(craft, [contact for gap in missing for contact in (gap.open, gap.counterpart)]),
        link=link,
        harm=harm.NOT_FED if rail and severity is Severity.WARNING else harm.DRAWING,
    )


def _rails(judgement: Judgement, link: Link, near: Termination, far: Termination) -> Iterator[Missing]:
    """Supply and ground contacts of `near` left open while `far` has the same rail."""
    for contact in near.contacts:
        if contact.role.cls not in _RAILS or not _open(judgement, contact):
            continue
        alike = [o for o in far.contacts if _same_rail(judgement, contact, o) and o.key not in judgement.misplaced]
        if not alike:
            continue
        counterpart = next((other for other in alike if _open(judgement, other)), alike[0])
        verdict = _rail_left_open(judgement, link, near, contact, counterpart)
        if verdict is not None:
            yield Missing(contact, counterpart, *verdict)


def _same_rail(judgement: Judgement, a: Contact, b: Contact) -> bool:
    return a.role.cls is b.role.cls and judgement.agree(a, b).agrees


def _rail_left_open(
    judgement: Judgement, link: Link, near: Termination, contact: Contact, counterpart: Contact
) -> tuple[Severity, str] | None:
    """How bad it is; None when there is nothing to say."""
    twins = [
        other
        for other in near.contacts
        if other.key != contact.key and not _open(judgement, other) and _same_rail(judgement, contact, other)
    ]
    far_open = _open(judgement, counterpart)
    if contact.role.is_ground and _is_switched_by(judgement, link, counterpart):
        return None
    if any(joint for joint in judgement.links[link] if {joint.a.key, joint.b.key} & {twin.key for twin in twins}):
        return (Severity.NOTE, "spare, beside one that is connected") if far_open else None
    if twins:  # the rail reaches this end by another way
        return None
    if contact.gives and counterpart.gives:
        return Severity.NOTE, "both feed this rail"
    if _pulled_out(judgement, contact, counterpart):
        return Severity.NOTE, "a second regulator, left out on purpose"
    if _fed_by_another(judgement, contact, counterpart):
        return Severity.NOTE, "fed by another board, left out on purpose"
    if _left_out_at_both_ends(judgement, contact, counterpart):
        return Severity.NOTE, "left out at both ends, and both boards are fed elsewhere"
    rail_elsewhere = not near.takes_plug and _board_has_rail(judgement, near, contact)
    if rail_elsewhere and (not far_open or contact.role.is_ground):
        return None
    if rail_elsewhere and contact.role.is_supply:
        return Severity.NOTE, "the board is fed at another contact"
    return Severity.WARNING, ""


def _is_switched_by(judgement: Judgement, link: Link, minus: Contact) -> bool:
    """Whether a lead of this link takes a part's minus to an output that switches it: a buzzer, a lamp."""
    for joint in judgement.links[link]:
        if minus.key in (joint.a.key, joint.b.key):
            other = joint.b if joint.a.key == minus.key else joint.a
            if not other.role.is_ground and not other.role.is_supply and judgement.outcomes[joint].agrees:
                return True
    return False


def _pulled_out(judgement: Judgement, contact: Contact, counterpart: Contact) -> bool:
    """A regulator's output under a no-connect flag, whose counterpart's board has this rail from another one."""
    source, other = (contact, counterpart) if contact.gives else (counterpart, contact)
    if not source.gives or not (source.flagged_empty or other.flagged_empty):
        return False
    board = judgement.craft.terminations[other.termination].board
    return any(
        neighbour.key != other.key and not _open(judgement, neighbour) and _same_rail(judgement, neighbour, other)
        for termination in judgement.terminations_of_board.get(board, ())
        for neighbour in termination.contacts
    )


def _fed_by_another(judgement: Judgement, contact: Contact, counterpart: Contact) -> bool:
    """A supply under a no-connect flag, not needed at either end: a board of its own feeds the counterpart.

    The servo rail of a board that is fed at another plug, and servos on a supply of their own.
    """
    if not (contact.flagged_empty and contact.role.is_supply and not contact.takes):
        return False
    boards = {judgement.craft.terminations[met.termination].board for met in (contact, counterpart)}
    run = judgement.on_solid_run(counterpart.net_id)
    near = judgement.craft.terminations[contact.termination]
    return _board_has_rail(judgement, near, contact) and any(
        other.gives and judgement.craft.terminations[other.termination].board not in boards for other in run
    )


def _left_out_at_both_ends(judgement: Judgement, contact: Contact, counterpart: Contact) -> bool:
    """Supplies under a flag each, taken by neither board, which both have their own: two regulators' leads cut off."""
    both = (contact, counterpart)
    return contact.role.is_supply and all(
        one_end.flagged_empty
        and not one_end.takes
        and _board_has_rail(judgement, judgement.craft.terminations[one_end.termination], one_end)
        for one_end in both
    )


def _board_has_rail(judgement: Judgement, near: Termination, contact: Contact) -> bool:
    """Whether the board's ground, or any supply of it, is joined at another contact."""
    return any(
        other.role.cls is contact.role.cls and not _open(judgement, other)
        for termination in judgement.terminations_of_board.get(near.board, ())
        for other in termination.contacts
    )


def _signals_open_at_both_ends(
    judgement: Judgement, link: Link, near: Termination, far: Termination
) -> Iterator[Missing]:
    left = [contact for contact in far.contacts if _is_open_signal(judgement, far, contact)]
    pairs = []
    for contact in near.contacts:
        if _is_open_signal(judgement, near, contact):
            match = _counterpart(judgement, contact, left)
            if match is not None:
                left.remove(match)
                pairs.append((contact, match))
    for a, b in pairs:
        group = _group(a, b)
        lines = sum(1 for pair in pairs if _group(*pair) == group)
        yield Missing(a, b, *_signal_left_open(judgement, link, a, b, lines))


def _is_open_signal(judgement: Judgement, termination: Termination, contact: Contact) -> bool:
    """An open signal; one that may be of any group only when it is the only signal there (a servo's SIG)."""
    if contact.role.cls is not RoleClass.SIGNAL or not _open(judgement, contact):
        return False
    signals = [other for other in termination.contacts if other.role.cls is RoleClass.SIGNAL]
    return contact.role.group != ANY or len(signals) == 1


def _counterpart(judgement: Judgement, contact: Contact, left: list[Contact]) -> Contact | None:
    alike = [other for other in left if judgement.agree(contact, other).agrees]
    alike = [other for other in alike if ANY not in (contact.role.group, other.role.group)] or alike
    vague = bool(alike) and ANY in (contact.role.group, alike[0].role.group)
    if vague and (len(alike) > 1 or contact.role.group == alike[0].role.group):
        return None
    return alike[0] if alike else None


def _group(a: Contact, b: Contact) -> str:
    return b.role.group if a.role.group == ANY else a.role.group


def _signal_left_open(judgement: Judgement, link: Link, a: Contact, b: Contact, lines: int) -> tuple[Severity, str]:
    if a.flagged_empty or b.flagged_empty:
        return Severity.NOTE, "meant to stay empty"
    if {a.role.line, b.role.line} == _FLOW_CONTROL and not _flow_control_used(judgement, link):
        return Severity.NOTE, "flow control not used"
    group = _group(a, b)
    if lines > 1 and group in _GROUPS_OF_LINES and not _used(judgement, link, group):
        return Severity.NOTE, "nothing of it is used here"
    return Severity.WARNING, ""


def _used(judgement: Judgement, link: Link, group: str) -> bool:
    return any(group in (joint.a.role.group, joint.b.role.group) for joint in judgement.links[link])


def _flow_control_used(judgement: Judgement, link: Link) -> bool:
    return any(_FLOW_CONTROL & {joint.a.role.line, joint.b.role.line} for joint in judgement.links[link])


def _bus_open_at_one_end(judgement: Judgement, link: Link, near: Termination, far: Termination) -> Iterator[Missing]:
    """A bus line that passes this end by: the other end has it joined to somebody else."""
    for contact in near.contacts:
        group = contact.role.group
        if group not in _SHARED or not _open(judgement, contact) or not _used(judgement, link, group):
            continue
        if group == "uart" and contact.role.direction is not Direction.LISTENS:
            continue
        if any(other.role.name == contact.role.name and not _open(judgement, other) for other in near.contacts):
            continue
        counterpart = next(
            (o for o in far.contacts if not _open(judgement, o) and judgement.agree(contact, o).agrees), None
        )
        if counterpart is not None and counterpart.role.group == group:
            often_meant = contact.flagged_empty or group not in _BUSES
            severity = Severity.NOTE if often_meant else Severity.WARNING
            yield Missing(contact, counterpart, severity, "the rest of it is connected")


def _not_fed(judgement: Judgement, told: set[ContactKey]) -> Iterator[Finding]:
    """A board that takes part in the craft and whose supply contacts are all open."""
    craft = judgement.craft
    for board, terminations in judgement.terminations_of_board.items():
        contacts = [contact for termination in terminations for contact in termination.contacts]
        supplies = [contact for contact in contacts if contact.role.is_supply and not contact.gives]
        if not supplies or any(contact.key in told or contact.flagged_empty for contact in supplies):
            continue
        if any(contact.net_id in judgement.unread_nets for contact in supplies):
            continue  # by a regulator, for example, which is told
        joined = [contact for contact in contacts if not _open(judgement, contact)]
        if not joined or any(c.role.is_supply or not c.role.judged or c.role.cls is RoleClass.PHASE for c in joined):
            continue
        if any(_feed_is_misplaced(judgement, board, contact) for contact in supplies):
            continue  # told as a clash
        yield Finding(
            rule="not-connected",
            severity=Severity.WARNING,
            message=f"{board} has signals connected but no supply: {listed([name_of(craft, c) for c in supplies])}"
            f" ({role_words(supplies[0].role)}) is not connected.",
            fix="Connect its supply, or put a no-connect flag on it if it is fed in another way.",
            where=at_contacts(craft, supplies),
            harm=harm.NOT_FED,
        )


def _feed_is_misplaced(judgement: Judgement, board: str, supply: Contact) -> bool:
    """Whether the other end of one of the board's links has this rail, on a net where it clashes."""
    for near in judgement.terminations_of_board[board]:
        for joint in judgement.by_termination.get(near.reference, ()):
            for far in (judgement.craft.terminations[reference] for reference in joint.link):
                alike = [contact for contact in far.contacts if contact.key in judgement.misplaced]
                if far.board != board and any(_same_rail(judgement, supply, contact) for contact in alike):
                    return True
    return False
