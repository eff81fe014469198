"""Leads of supply and ground that nothing in the drawing decides."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.joined.joints import Joint
from tabside.analysis.judgement import Judgement
from tabside.analysis.judging.power_carried import undecided_power
from tabside.analysis.meeting.outcome import Cause
from tabside.analysis.places import at_contacts
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import counted, listed, name_of

RULE = "not-judged"


@check(RULE, severity=Severity.WARNING)
def not_judged(judgement: Judgement) -> Iterator[Finding]:
    """Every wire that carries power is checked: both of its ends are known.

    A supply or a ground on a contact that nobody knows may be right, and it may burn the board.  Tabside does not
    guess: as long as such a wire stands, the verdict is "not decided".  Example: 12V on a contact called FROB; a
    camera of 7-17V on a pack of which nothing says how many cells it has.

    Fix: write what the contact is in Signals, or Gives and Takes, as the maker's pinout gives it; of a battery, write
    in the craft file which it is (`battery = "4S"`), and of packs in series at each of them (Gives "4S").
    Accept: wire by wire, with both contacts, once you have looked it up.
    Passes: signals of unknown name; equal names at both ends; a control input strapped to its own ground; a battery of
    unknown volts on an input that states no range.
    Warns: one finding with all wires of which an end, or the net's name, is a supply or ground, and the other is not
    known.
    Source: logic.
    """
    joints = list(undecided_power(judgement))
    accepted = {frozenset(acceptance.at) for acceptance in judgement.craft.settings.accept if acceptance.rule == RULE}
    alone = [joint for joint in joints if frozenset((joint.a.key, joint.b.key)) in accepted]
    for joint in alone:
        yield _finding(judgement, [joint])
    rest = [joint for joint in joints if joint not in alone]
    if rest:
        yield _finding(judgement, rest)


def _finding(judgement: Judgement, joints: list[Joint]) -> Finding:
    craft = judgement.craft
    pairs = [f"{name_of(craft, joint.a)} to {name_of(craft, joint.b)}" for joint in joints]
    verb = "carries" if len(joints) == 1 else "carry"
    fix = "Write what these contacts are in Signals, Gives or Takes; accept a wire only after a look at the pinout."
    if any(judgement.outcomes[joint].cause is Cause.PACK_UNKNOWN for joint in joints):
        fix += _how_to_say_the_pack(judgement)
    return Finding(
        rule=RULE,
        severity=Severity.WARNING,
        message=f"{counted(len(joints), 'wire')} that {verb} power could not be checked: {listed(pairs)}.",
        fix=fix,
        where=at_contacts(craft, [contact for joint in joints for contact in (joint.a, joint.b)]),
        link=joints[0].link if len({joint.link for joint in joints}) == 1 else None,
        harm=harm.UNDECIDED,
        undecided=len(joints),
    )


def _how_to_say_the_pack(judgement: Judgement) -> str:
    stacks = list(judgement.packs.unsaid.values())
    if not stacks:
        return ' Nothing says how many volts the battery has: say it in the craft file, for example battery = "4S".'
    names = listed([judgement.craft.terminations[pack.plus.termination].reference for pack in stacks[0]])
    return (
        f" {names} are packs in series: write at each of them what it has, in Gives or as the Value of a battery"
        ' symbol, for example "4S". The craft file\'s battery does not say whether it is one of them or all together.'
    )
