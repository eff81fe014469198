"""Lines in pairs for each direction, TX+ and TX- beside RX+ and RX-, or TDA and TDB, that are not crossed.

Of RS-422, and of RS-485 with four wires, two outputs are joined then; Ethernet runs straight, since its ports cross by
themselves (automatic MDI-X, IEEE 802.3 clause 40.4.4; from memory, unverified).  The names alone do not tell one from
the other: what else the drawing says of the two ends does.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from tabside.analysis import harm
from tabside.analysis.joined.joints import Joint
from tabside.analysis.joined.wired import Wired
from tabside.analysis.meeting.outcome import Agreement, Cause, Outcome
from tabside.facts.labels.text import clean_label
from tabside.model.craft import Contact

# How makers print these lines.  Common practice, no source.
_LINE = re.compile(
    r"(?:.*[ _.:/-]|(?:RS)?-?4(?:22|85))?"
    r"(?:(?P<word>TXD?|RXD?|TD|RD)(?:4(?:22|85))?[ _]?[+\-PN]|(?P<letter>[TR])(?:4(?:22|85))?[ _]?[+-])"
)
_LETTERED = re.compile(r"(?:.*[ _.:/-])?(?P<way>[TR])X?D[ _-]?[AB]")  # no port of Ethernet is printed like that
_TALK = re.compile(r"NMEA[ _-]?(?:0?183)?[ _-]?(?P<way>OUT|TX|IN|RX)D?(?:[ _]?[+\-AB])?")
OUT, IN = "T", "R"  # the first letter of TX and RX, of T and R
_SERIAL = r"(?<!\d)(?:422|485)(?!\d)"
_BUS = r"(?<!\d)485(?!\d)"
_ETHERNET = (
    r"(?<![A-Z])(?:ETH|ENET|MDI|POE|IP(?![A-Z])|(?:LAN|NET|PHY)(?![A-Z]))|ETHERNET|100?BASE|RJ-?45|ROUTER|SWITCH"
)


def paired_outputs(wired: Wired, outcomes: Mapping[Joint, Agreement]) -> dict[Joint, Agreement]:
    """Joints of TX+ on TX+ and their like: a clash where the drawing says RS-422, else a warning that names both."""
    found: dict[Joint, Agreement] = {}
    for joint, outcome in outcomes.items():
        if outcome.clashes:
            continue
        ways = {_way(wired, contact) for contact in (joint.a, joint.b)}
        if joint.a.termination == joint.b.termination or ways not in ({OUT}, {IN}):
            continue
        agreement = _judged(wired, joint, ways.pop())
        if agreement is not None:
            found[joint] = agreement
    return found


def _way(wired: Wired, contact: Contact) -> str:
    """Whether a line goes out or comes in by its name; "" when it is none of a pair for one direction."""
    text = clean_label(contact.label).plain
    if text in "ABYZ":
        beside = {
            clean_label(neighbour.label).plain for neighbour in wired.craft.terminations[contact.termination].contacts
        }
        return {"Y": OUT, "Z": OUT, "A": IN, "B": IN}.get(text, "") if beside >= set("ABYZ") else ""
    if named := _LETTERED.fullmatch(text) or _TALK.fullmatch(text):
        return {"O": OUT, "I": IN}.get(named["way"][0], named["way"][0])
    found = _LINE.fullmatch(text)
    return "" if found is None else (found["word"] or found["letter"])[0]


def _is_serial(contact: Contact) -> bool:
    """Whether the name alone says that it is no Ethernet: TDA, NMEA OUT, Y."""
    text = clean_label(contact.label).plain
    return text in "ABYZ" or bool(_LETTERED.fullmatch(text) or _TALK.fullmatch(text))


def _judged(wired: Wired, joint: Joint, way: str) -> Agreement | None:
    said = " ".join(_said(wired, joint)).upper()
    if re.search(_ETHERNET, said):
        return None
    what = "two outputs" if way == OUT else "nothing drives the line"
    reason = f"{joint.a.label} on {joint.b.label}: {what}"
    rank = harm.TWO_OUTPUTS if way == OUT else harm.DEAD_LINK
    if way == IN and _has_both_ways(wired, joint):
        return None
    if re.search(_SERIAL, said) or _is_serial(joint.a):
        if re.search(_BUS, said) and _has_both_ways(wired, joint):
            return None
        return Agreement(Outcome.CLASH, reason, rank, Cause.CROSSING)
    if all(_has_ground(wired, contact) for contact in (joint.a, joint.b)):
        reason += ", unless it is Ethernet, whose ports cross by themselves"
        return Agreement(Outcome.WARN, reason, rank, Cause.LINES)
    return None


def _said(wired: Wired, joint: Joint) -> Iterator[str]:
    """What the drawing writes at both ends: boards, names of plugs, values, fields, the signals beside, the net."""
    craft = wired.craft
    for side in (joint.a, joint.b):
        end = craft.terminations[side.termination]
        yield from (end.board, end.value, side.net, *end.fields.values(), *craft.net_names.get(side.net_id, ()))
        yield from (contact.label for contact in end.contacts)


def _has_ground(wired: Wired, contact: Contact) -> bool:
    return any(neighbour.role.is_ground for neighbour in wired.craft.terminations[contact.termination].contacts)


def _has_both_ways(wired: Wired, joint: Joint) -> bool:
    """Whether outputs and inputs are on the net: one of RS-422 drives several listeners, those of a bus take turns."""
    return {_way(wired, contact) for contact in wired.on_whole_run(joint.a.net_id)} >= {OUT, IN}
