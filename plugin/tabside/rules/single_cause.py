"""A link whose clashes all come from one slip: two leads exchanged, an end read in mirror image or shifted."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis.causes.clash_words import folded_clash
from tabside.analysis.causes.link_causes import Explained, Link
from tabside.analysis.joints import Joint
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.craft import Craft
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import counted, link_name, name_of, termination_name


@check("swapped-pair", "mirrored", "shifted", severity=Severity.ERROR)
def single_cause(judgement: Judgement) -> Iterator[Finding]:
    """One finding for a link whose clashes vanish when one end is read the other way, or two leads change places.

    Passes: links without a clash, in whatever order they run.
    Fails: 5V, TX, RX, GND against GND, RX, TX, 5V contact by contact; the same one contact further; two leads
    exchanged.
    Source: logic.
    """
    craft = judgement.craft
    for link, explained in [*judgement.explained.items(), *judgement.explained_ends]:
        folded = sorted(
            (folded_clash(craft, joint, judgement.clashing[joint]) for joint in explained.joints),
            key=lambda finding: -finding.harm,
        )
        message, fix = _words(judgement, link, explained)
        yield Finding(
            rule=explained.cause.rule,
            severity=min((finding.severity for finding in folded), key=lambda severity: severity.rank),
            message=f"{message} As drawn: {judgement.clashing[_worst(judgement, explained)].reason}.",
            fix=fix,
            where=at_contacts(craft, [c for joint in explained.joints for c in (joint.a, joint.b)]),
            folded=tuple(folded),
            link=link,
            harm=max(finding.harm for finding in folded),
        )


def _worst(judgement: Judgement, explained: Explained) -> Joint:
    return max(explained.joints, key=lambda joint: judgement.clashing[joint].harm)


def _words(judgement: Judgement, link: Link, explained: Explained) -> tuple[str, str]:
    craft, cause = judgement.craft, explained.cause
    name = link_name(craft, link)
    if explained.contacts:
        return _swapped_on_nets(craft, explained)
    count = len(explained.joints)
    clashes = "1 lead clashes" if count == 1 else f"{count} leads clash"
    if cause.rule == "swapped-pair":
        return _swapped(judgement, link, explained, name)
    which = _which(craft, explained)
    if cause.rule == "mirrored":
        message = f"{name} is drawn with {which} in mirror image (contact 1 taken for {cause.ways}): {clashes}."
        face = "Check from which side its pinout was copied, say it in Seen from, and number it from contact 1."
        return message, f"{face} Read the right way, every clash is gone."
    step = cause.shift_size
    message = f"{name} is drawn with {which} shifted by {counted(step, 'contact')}: {clashes}."
    return message, "Count again from the mark of contact 1 and move its signals; then every clash is gone."


def _which(craft: Craft, explained: Explained) -> str:
    if explained.end is None:
        return "one end, the drawing cannot tell which,"
    return termination_name(craft, explained.end)


def _swapped(judgement: Judgement, link: Link, explained: Explained, name: str) -> tuple[str, str]:
    craft = judgement.craft
    k, m = (judgement.links[link][position] for position in explained.cause.exchanged)
    message = (
        f"{name} has two leads exchanged: {name_of(craft, k.a)} goes to {name_of(craft, k.b)}, and"
        f" {name_of(craft, m.a)} to {name_of(craft, m.b)}."
    )
    end = (
        "one end, the drawing cannot tell which"
        if explained.end is None
        else f"{termination_name(craft, explained.end)}, where the rest of the nets disagrees"
    )
    fix = (
        f"Join {name_of(craft, k.a)} to {name_of(craft, m.b)}, and {name_of(craft, m.a)} to {name_of(craft, k.b)}:"
        f" exchange them at {end}."
    )
    return message, fix


def _swapped_on_nets(craft: Craft, explained: Explained) -> tuple[str, str]:
    k, m = explained.contacts
    message = (
        f"{termination_name(craft, k.termination)} has two leads exchanged: {name_of(craft, k)} is on the net {k.net},"
        f" and {name_of(craft, m)} on {m.net}."
    )
    return message, f"Exchange these two: {name_of(craft, k)} to {m.net}, and {name_of(craft, m)} to {k.net}."
