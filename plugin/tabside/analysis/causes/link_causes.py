"""The single slip behind the clashes of one link: which it is, at which end, and what else it explains."""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from tabside.analysis.causes.order import Judge, SingleCause, single_causes
from tabside.analysis.joined.joints import Joint
from tabside.analysis.joined.wired import Link
from tabside.analysis.judging.judged_joints import JudgedJoints
from tabside.analysis.meeting.outcome import Agreement, Outcome, not_judged
from tabside.model.craft import Contact, Termination

_TWO_ROWS = re.compile(r"(?<![0-9A-Za-z])0?[2-9]x\d\d")
_NO_NUMBER = 1_000_000  # contacts without a decimal number get numbers of their own from here, and no row


class Explained(Struct, frozen=True):
    """A single cause of a link's clashes."""

    cause: SingleCause
    end: str | None  # reference of the end that it concerns; None when the drawing cannot tell
    joints: tuple[Joint, ...]  # the clashes that it explains, those of other links included
    doubts: tuple[Joint, ...] = ()  # warnings of the link that it removes as well
    contacts: tuple[Contact, ...] = ()  # the two exchanged ones, when they are told against their nets


def single_row(termination: Termination) -> bool:
    """Whether the contacts stand in one row; of unknown families the names say it (2x05, 02x05: KiCad's library)."""
    return termination.rows == 1 and not _TWO_ROWS.search(f"{termination.footprint} {termination.value}")


def row_of(termination: Termination) -> int | None:
    """Ways of a single row of numbered contacts; None where there is no such row (pads, bare leads, two rows)."""
    numbered = all(contact.number.isdecimal() for contact in termination.contacts)
    return termination.ways if termination.takes_plug and numbered and single_row(termination) else None


def explain(judged: JudgedJoints, link: Link, joints: list[Joint]) -> Explained | None:
    """The likeliest single cause of the link's clashes; None when no cause removes all of them."""
    ends = [judged.craft.terminations[reference] for reference in link]
    if not all(single_row(end) for end in ends):
        return None
    numbers = [_numbers(end) for end in ends]
    joined = [(numbers[0][joint.a.number], numbers[1][joint.b.number]) for joint in joints]
    judge = _judge(judged, ends, numbers, dict(zip(joined, joints, strict=True)))
    side = _odd_end(judged, link, joints)
    causes = single_causes(joined, judge, (row_of(ends[0]), row_of(ends[1])))
    causes = [cause for cause in causes if cause.end is None or side in (None, cause.end)]
    if not causes:
        return None
    best = causes[0]
    rank = (best.rule, best.moved, best.shift_size)
    alike = [cause for cause in causes if (cause.rule, cause.moved, cause.shift_size) == rank]
    best, end = _which_end(judged, alike, link, side)
    clashes = [joint for joint in joints if joint in judged.clashing]
    elsewhere = list(dict.fromkeys(_mended_elsewhere(judged, best, end, link, joints)))
    moved = best.moves(joined)
    doubts = [
        joint
        for joint, pair in zip(joints, moved, strict=True)
        if judged.outcomes[joint].outcome is Outcome.WARN and judge(*pair).agrees
    ]
    return Explained(best, None if end is None else link[end], (*clashes, *elsewhere), tuple(doubts))


def _numbers(termination: Termination) -> dict[str, int]:
    """Contact as drawn -> its number; contacts without a decimal one get one beyond every row."""
    return {
        contact.number: int(contact.number) if contact.number.isdecimal() else _NO_NUMBER + n
        for n, contact in enumerate(termination.contacts)
    }


def _judge(
    judged: JudgedJoints, ends: list[Termination], numbers: list[dict[str, int]], drawn: dict[tuple[int, int], Joint]
) -> Judge:
    contacts = [{numbers[k][contact.number]: contact for contact in end.contacts} for k, end in enumerate(ends)]

    def judge(a: int, b: int) -> Agreement:
        if (a, b) in drawn:
            return judged.outcomes[drawn[a, b]]
        if a not in contacts[0] or b not in contacts[1]:
            return not_judged("there is no such contact")
        return _if_joined(judged, contacts[0][a], contacts[1][b])

    return judge


def _if_joined(judged: JudgedJoints, a: Contact, b: Contact) -> Agreement:
    """What a lead between these two would mean, with whatever else is on their nets."""
    found = judged.agree(a, b)
    if not found.nobody_drives:
        return found
    for contact, other in ((a, b), (b, a)):
        rest = {beside.key for beside in judged.craft.terminations[other.termination].contacts} | {contact.key}
        met = judged.driven(contact, found, rest)
        if not met.clashes:
            return met
    return found


def _which_end(
    judged: JudgedJoints, alike: list[SingleCause], link: Link, side: int | None
) -> tuple[SingleCause, int | None]:
    """The cause and the end that it concerns; None when the drawing cannot tell.

    Only one end's cause may hold; the other links of an end may be mended, or spoilt, by it; and the other contacts on
    the link's nets may side with one end.
    """
    ends = {cause.end for cause in alike}
    if len(ends) == 1 and alike[0].end is not None:
        return alike[0], alike[0].end
    if alike[0].rule == "swapped-pair":
        return alike[0], side
    cost = {cause.end: _cost_elsewhere(judged, cause, link) for cause in reversed(alike)}
    best = min(alike, key=lambda cause: cost[cause.end])
    if len(set(cost.values())) > 1:
        return best, best.end
    return next((cause for cause in alike if cause.end == side), best), side


def _odd_end(judged: JudgedJoints, link: Link, joints: list[Joint]) -> int | None:
    """The end whose contacts clash with the rest of their nets while the other end's agree with it."""
    odd = set()
    for joint in joints:
        if joint not in judged.clashing:
            continue
        on_net = judged.solid_members[judged.solid_runs[joint.a.net_id]]
        rest = next((contact for contact in on_net if contact.termination not in link and contact.role.judged), None)
        if rest is not None:
            against = [judged.agree(contact, rest).clashes for contact in (joint.a, joint.b)]
            if against[0] != against[1]:
                odd.add(against.index(True))
    return odd.pop() if len(odd) == 1 else None


def _others_at(judged: JudgedJoints, cause: SingleCause, link: Link) -> Iterator[tuple[Joint, Agreement]]:
    """Joints of the end's other links, each with what it would be without the slip."""
    assert cause.end is not None
    end = judged.craft.terminations[link[cause.end]]
    numbers = {contact.number: contact for contact in end.contacts}
    for joint in judged.by_termination.get(end.reference, ()):
        if set(joint.link) == set(link):
            continue
        own, far = (joint.a, joint.b) if joint.a.termination == end.reference else (joint.b, joint.a)
        if own.number.isdecimal() and far.termination != end.reference:
            intended = numbers.get(str(cause.intended(int(own.number))))
            yield joint, _if_joined(judged, intended, far) if intended else not_judged("there is no such contact")


def _cost_elsewhere(judged: JudgedJoints, cause: SingleCause, link: Link) -> int:
    return sum(would.clashes - (joint in judged.clashing) for joint, would in _others_at(judged, cause, link))


def _mended_elsewhere(
    judged: JudgedJoints, best: SingleCause, end: int | None, link: Link, joints: list[Joint]
) -> Iterator[Joint]:
    """Clashes of other links that the same slip explains: they are not told twice."""
    if best.rule == "swapped-pair":
        yield from _mended_by_exchange(judged, *(joints[position] for position in best.exchanged))
        return
    for position in (0, 1) if end is None else (end,):
        ways = row_of(judged.craft.terminations[link[position]])
        if ways is not None:
            for joint, would in _others_at(judged, replace(best, end=position, ways=ways), link):
                if joint in judged.clashing and would.agrees:
                    yield joint


def _mended_by_exchange(judged: JudgedJoints, k: Joint, m: Joint) -> Iterator[Joint]:
    swapped = {k.a.key: m.a, m.a.key: k.a, k.b.key: m.b, m.b.key: k.b}
    for joint in judged.clashing:
        if joint.link != k.link and any(
            own.key in swapped and judged.agree(swapped[own.key], far).agrees
            for own, far in ((joint.a, joint.b), (joint.b, joint.a))
        ):
            yield joint
