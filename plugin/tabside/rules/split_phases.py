"""A motor whose phases go to two drivers."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.joined.joints import phases_of
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, Kind, Termination
from tabside.model.findings import Finding, Severity
from tabside.model.roles import RoleClass
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of

PHASES = 3  # of one motor


@check("role-clash", severity=Severity.ERROR)
def split_phases(judgement: Judgement) -> Iterator[Finding]:
    """The phases of a motor come from one bridge, in any order.

    Each wire by itself connects a phase to a phase; only together are they wrong.

    A motor on two drivers is turned by neither, and both work against each other.  Example: phase A of motor 1 and
    phase A of motor 2 swapped.

    Fix: connect all phases of a motor to one driver, in any order.
    Accept: where two outputs are one driver inside.
    Passes: three phases in any order; pads drawn one by one, or all in one row, of which the drawing does not say which
    make a bridge.
    Fails: phase A of motor 1 swapped with phase A of motor 2; two phases of a motor on one wire.
    Source: common practice, no source.
    """
    terminations = judgement.craft.terminations
    split = [(end, found) for end, found in _partners(judgement).items() if len(found) > 1]
    split.sort(key=lambda entry: terminations[entry[0]].kind is not Kind.CAPTIVE)  # the motor's end says it best
    told: set[str] = set()
    for reference, found in split:
        if len(phases_of(terminations[reference])) > PHASES or told & {reference, *found}:
            continue
        told |= {reference, *found}
        yield _finding(judgement, reference, found)
    for end in judgement.ends:
        tied = _tied(judgement, end)
        if tied and end.reference not in told:
            told |= {joint_end for joint in judgement.by_termination.get(end.reference, ()) for joint_end in joint.link}
            yield _tied_finding(judgement, tied)


def _tied(judgement: Judgement, end: Termination) -> list[Contact]:
    """Contacts of different phases of one motor that stand on one run."""
    by_run: dict[tuple[int, int | None], list[Contact]] = {}
    for contact in phases_of(end):
        if contact.key in judgement.joined:
            by_run.setdefault((judgement.whole_runs[contact.net_id], contact.role.index), []).append(contact)
    return [c for some in by_run.values() if len({contact.role.line for contact in some}) > 1 for c in some]


def _tied_finding(judgement: Judgement, tied: list[Contact]) -> Finding:
    craft = judgement.craft
    return Finding(
        rule="role-clash",
        severity=Severity.ERROR,
        message=f"{listed([name_of(craft, contact) for contact in tied])} are on one wire: two phases of a motor, which"
        " its driver then shorts.",
        fix="Give each phase a wire of its own.",
        where=at_contacts(craft, tied),
        harm=harm.HEAT,
    )


def _partners(judgement: Judgement) -> dict[str, dict[str, list[tuple[Contact, Contact]]]]:
    """Termination of phases -> the terminations of phases that it is joined to, and over which contacts."""
    craft = judgement.craft
    partners: dict[str, dict[str, list[tuple[Contact, Contact]]]] = {}
    for joint in judgement.joints:
        if all(contact.role.cls is RoleClass.PHASE for contact in (joint.a, joint.b)) and all(
            len(phases_of(craft.terminations[end])) > 1 for end in joint.link
        ):
            for own, other in ((joint.a, joint.b), (joint.b, joint.a)):
                partners.setdefault(own.termination, {}).setdefault(other.termination, []).append((own, other))
    return partners


def _finding(judgement: Judgement, reference: str, found: dict[str, list[tuple[Contact, Contact]]]) -> Finding:
    craft = judgement.craft
    termination = craft.terminations[reference]
    pairs = [pair for joined in found.values() for pair in joined]
    goes = listed([f"{name_of(craft, own)} to {name_of(craft, other)}" for own, other in pairs])
    return Finding(
        rule="role-clash",
        severity=Severity.ERROR,
        message=f"The phases of {termination.board}/{reference} go to {len(found)} different ends: {goes}.",
        fix="Connect all phases of a motor to the same driver (ESC); their order only sets the direction of rotation.",
        where=at_contacts(craft, [contact for pair in pairs for contact in pair]),
        harm=harm.CANNOT_BE_BUILT,
    )
