"""A link whose clashes all come from one slip: two leads exchanged, an end read in mirror image or shifted."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis.causes.link_causes import Explained
from tabside.analysis.causes.order import SingleCause
from tabside.analysis.clash_words import folded_clash
from tabside.analysis.joined.joints import Joint
from tabside.analysis.joined.wired import Link
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.craft import Craft, Termination
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import counted, link_name, name_of, termination_name


@check("swapped-pair", "mirrored", "shifted", severity=Severity.ERROR)
def single_cause(judgement: Judgement) -> Iterator[Finding]:
    """One finding for a connection whose conflicts vanish when one end is read the other way, or two wires are swapped.

    A pinout is printed as seen on the board, and often copied from the wrong side: then the whole plug is turned, and
    supply lands on ground.  Example: 5V, TX, RX, GND against GND, RX, TX, 5V contact by contact.

    Fix: look at the real board once.  Where contact 1 is what the drawing says, the wires are drawn to the wrong
    contacts; where it is the other name, the pinout was entered from the wrong side.
    Accept: never for supply and ground; else where both manuals were looked up.
    Passes: connections without a conflict, in whatever order they run.
    Fails: an end in mirror image; an end off by one contact; two wires swapped.
    Source: logic.
    """
    craft = judgement.craft
    for link, explained in [*judgement.explained.items(), *judgement.explained_ends]:
        folded = sorted(
            (folded_clash(craft, joint, judgement.clashing[joint]) for joint in explained.joints),
            key=lambda finding: -finding.harm,
        )
        message, fix = _words(judgement, link, explained)
        reason = judgement.clashing[_worst(judgement, explained)].reason
        polarity = "REVERSED POLARITY: " if _is_reversed(explained) else ""
        yield Finding(
            rule=explained.cause.rule,
            severity=min((finding.severity for finding in folded), key=lambda severity: severity.rank),
            message=f"{polarity}{message} As drawn: {reason}.",
            fix=fix,
            where=at_contacts(craft, [c for joint in explained.joints for c in (joint.a, joint.b)]),
            folded=tuple(folded),
            link=link,
            harm=max(finding.harm for finding in folded),
        )


def _is_reversed(explained: Explained) -> bool:
    """Whether plus meets minus, and minus meets plus."""
    met = {
        (joint.a.role.is_supply, joint.b.role.is_supply)
        for joint in explained.joints
        if joint.a.role.is_supply != joint.b.role.is_supply and (joint.a.role.is_ground or joint.b.role.is_ground)
    }
    return len(met) == 2


def _worst(judgement: Judgement, explained: Explained) -> Joint:
    return max(explained.joints, key=lambda joint: judgement.clashing[joint].harm)


def _words(judgement: Judgement, link: Link, explained: Explained) -> tuple[str, str]:
    craft, cause = judgement.craft, explained.cause
    name = link_name(craft, link)
    if explained.contacts:
        return _swapped_on_nets(craft, explained)
    count = len(explained.joints)
    clashes = f"{counted(count, 'wire')} {'conflicts' if count == 1 else 'conflict'}"
    if cause.rule == "swapped-pair":
        return _swapped(judgement, link, explained, name)
    which = _which(craft, explained)
    if cause.rule == "mirrored":
        message = f"The pin order of {which} is mirrored in {name} (contact 1 read as contact {cause.ways}): {clashes}."
        return message, _either_cure(judgement, link, explained)
    step = cause.shift_size
    message = f"The signals of {which} are off by {counted(step, 'contact')} in {name}: {clashes}."
    return message, _either_cure(judgement, link, explained)


def _either_cure(judgement: Judgement, link: Link, explained: Explained) -> str:
    """Both cures, and the one look at the real board that decides between them."""
    craft, cause = judgement.craft, explained.cause
    reference = explained.end or link[0]
    board = termination_name(craft, reference)
    first, other = _names_there(craft.terminations[reference], cause)
    cured = "Every conflict is gone either way."
    if not first or not other:
        return (
            f"Look at {board} itself, at the contact marked 1: where it is what the drawing says, the wires go to the"
            f" wrong contacts, so swap them; where it is not, enter the pinout from that mark. {cured}"
        )
    there = (
        "" if explained.end else f" If {board} is as drawn, look at {termination_name(craft, link[1])} the same way."
    )
    return (
        f"Look at {board} itself: if the contact marked 1 is printed {first}, the wires are drawn to the wrong"
        f" contacts, so draw them in the other order; if {other}, the pinout was entered from the wrong side, so"
        f" correct Signals (or Seen from).{there} {cured}"
    )


def _names_there(termination: Termination, cause: SingleCause) -> tuple[str, str]:
    """What the drawing calls contact 1, and what stands there when the pinout was entered wrong."""
    labels = {contact.number: contact.label for contact in termination.contacts}
    return labels.get("1", ""), labels.get(str(cause.intended(1)), "") if cause.ways else ""


def _which(craft: Craft, explained: Explained) -> str:
    if explained.end is None:
        return "one end (the drawing does not show which)"
    return termination_name(craft, explained.end)


def _swapped(judgement: Judgement, link: Link, explained: Explained, name: str) -> tuple[str, str]:
    craft = judgement.craft
    k, m = (judgement.links[link][position] for position in explained.cause.exchanged)
    message = (
        f"{name}: two wires are swapped: {name_of(craft, k.a)} goes to {name_of(craft, k.b)}, and"
        f" {name_of(craft, m.a)} to {name_of(craft, m.b)}."
    )
    end = (
        "one end; the drawing does not show which"
        if explained.end is None
        else f"{termination_name(craft, explained.end)}, where the rest of the nets disagrees"
    )
    fix = (
        f"Connect {name_of(craft, k.a)} to {name_of(craft, m.b)}, and {name_of(craft, m.a)} to {name_of(craft, k.b)}:"
        f" swap them at {end}."
    )
    return message, fix


def _swapped_on_nets(craft: Craft, explained: Explained) -> tuple[str, str]:
    k, m = explained.contacts
    message = (
        f"{termination_name(craft, k.termination)} has two wires swapped: {name_of(craft, k)} is on the net {k.net},"
        f" and {name_of(craft, m)} on {m.net}."
    )
    return message, f"Swap these two: {name_of(craft, k)} to {m.net}, and {name_of(craft, m)} to {k.net}."
