"""Leads that no table of names decides, decided by the drawing's own text.

Four signs of a crossed cable that need no table: the two grounds do not meet; what is called alike at both ends is
joined crosswise; a plus meets a minus while its minus meets the other's plus, and so do A and B of a line in pairs; a
light's anode meets a cathode while its cathode meets the other's anode.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import combinations

from tabside.analysis import harm
from tabside.analysis.joined.joints import Joint
from tabside.analysis.joined.wired import Wired
from tabside.analysis.meeting.outcome import Agreement, Cause, Outcome, clash
from tabside.facts.labels.text import clean_label, split_index, words_of
from tabside.model.craft import Contact, Kind, Termination
from tabside.model.roles import RoleClass

# Words that name a direction: lines called so cross on purpose.  Common practice, no source.
_DIRECTIONS = frozenset(
    (
        *("TX", "RX", "TXD", "RXD", "IN", "OUT", "INPUT", "OUTPUT", "DIN", "DOUT", "DI", "DO", "SDI", "SDO"),
        *("TD", "RD", "MISO", "MOSI", "RTS", "CTS", "DTR", "DSR", "SEND", "RECV", "TO", "FROM", "T", "R"),
    )
)
_PHASE_LETTERS = frozenset("ABCUVW")
# Names that a motor's three leads get with 1, 2 and 3 behind them.  Common practice, no source.
_NUMBERED_PHASES = frozenset(("L", "M", "MOT", "MOTOR", "P", "PH", "PHASE"))
_POLE = r"(?P<name>.*\S)\s*(?P<sign>[+-])"
# A and B, P and N of a line in pairs, as makers print them: TXD_A, TDB, RX_P, NMEA_OUT_A.  Common practice, no source.
_OF_A_PAIR = re.compile(
    r"(?:(?:RS)?-?4(?:22|85)[ _-]?|NMEA[ _-]?(?:0?183)?[ _-]?)?(?P<name>TXD?|RXD?|TD|RD|OUT|IN)[ _-]?(?P<sign>[ABPN])"
)
_FOUR = {"Y": ("TX", "A"), "Z": ("TX", "B"), "A": ("RX", "A"), "B": ("RX", "B")}  # of a transceiver with four wires
_LEGS = {"anode": "+", "cathode": "-"}


def text_clashes(wired: Wired, outcomes: Mapping[Joint, Agreement]) -> dict[Joint, Agreement]:
    """Joints that are not judged and that the text at their ends speaks against."""
    found: dict[Joint, Agreement] = {}
    for joints in wired.links.values():
        open_joints = [joint for joint in joints if not outcomes[joint].judged or _may_be_taps(joint)]
        open_joints += [joint for joint in joints if joint not in open_joints and _may_be_crossed(wired, joint)]
        if len(open_joints) > 1:
            for joint in open_joints:
                reason = _against(wired, joint, open_joints, joints)
                if reason and _are_legs(joint):
                    found[joint] = clash(
                        f"{_said(joint)}, and the other two legs as well: it stays dark", _harm(joint), Cause.CLASSES
                    )
                elif reason:
                    found[joint] = Agreement(Outcome.WARN, reason, _harm(joint), Cause.TEXT)
    return found


def _may_be_taps(joint: Joint) -> bool:
    """Two plus contacts of names that no table has (B1+, B2+), or with numbers (BAT1, BAT2): taps of a balance plug."""
    return all(
        (end.role.cls is RoleClass.UNKNOWN and end.label.strip().endswith("+"))
        or (end.role.battery and end.role.index is not None)
        for end in (joint.a, joint.b)
    )


def _are_legs(joint: Joint) -> bool:
    return all(end.role.name in _LEGS for end in (joint.a, joint.b))


def _may_be_crossed(wired: Wired, joint: Joint) -> bool:
    """Two lines in pairs whose own names say their letter (TXD_A, RXD_A), or two legs of lights."""
    return _are_legs(joint) or all(any(_letter(wired, end)) for end in (joint.a, joint.b))


def _letter(wired: Wired, contact: Contact) -> tuple[str, str]:
    """TX and A of TXD_A where TXD_B stands beside it, of Y where Y, Z, A and B do; ("", "") of another contact."""
    text = _text(contact)
    if text in _FOUR:
        return _FOUR[text] if _FOUR.keys() <= _texts_beside(wired, contact) else ("", "")
    found = _OF_A_PAIR.fullmatch(text)
    if found is None:
        return "", ""
    other = text[:-1] + {"A": "B", "B": "A", "P": "N", "N": "P"}[found["sign"]]
    return (found["name"], found["sign"]) if other in _texts_beside(wired, contact) else ("", "")


def _texts_beside(wired: Wired, contact: Contact) -> set[str]:
    return {_text(other) for other in wired.craft.terminations[contact.termination].contacts}


def _against(wired: Wired, joint: Joint, open_joints: Sequence[Joint], joints: Sequence[Joint]) -> str:
    return (
        _grounds_apart(joint, open_joints, joints)
        or _exchanged(wired, joint, open_joints)
        or _poles_crossed(wired, joint, open_joints)
    )


def _grounds_apart(joint: Joint, open_joints: Sequence[Joint], joints: Sequence[Joint]) -> str:
    """Each end's ground goes to a contact that is not the other's ground."""
    if any(other.a.role.is_ground and other.b.role.is_ground for other in joints):
        return ""
    sides = [[other for other in open_joints if contact(other).role.is_ground] for contact in (_first, _second)]
    if not all(sides) or not any(joint in side for side in sides):
        return ""
    return f"{_said(joint)}: the grounds of the two ends do not meet"


def _first(joint: Joint) -> Contact:
    return joint.a


def _second(joint: Joint) -> Contact:
    return joint.b


def _said(joint: Joint) -> str:
    return f'"{joint.a.label}" on "{joint.b.label}"'


def _exchanged(wired: Wired, joint: Joint, open_joints: Sequence[Joint]) -> str:
    """The name at one end stands at the other end too, on another contact that is joined, and the other way round."""
    a, b = _name(wired, joint.a), _name(wired, joint.b)
    if not a or not b or a == b or _differ_by_direction(a, b) or _may_be_phases(wired, joint):
        return ""
    near = {_name(wired, other.a) for other in open_joints}
    far = {_name(wired, other.b) for other in open_joints}
    return f"{_said(joint)}, while both ends have both names" if b in near and a in far else ""


def _name(wired: Wired, contact: Contact) -> str:
    """A contact's text; digits alone are a name where those of its termination are not the contacts' own numbers."""
    label = contact.label.strip()
    if not label.isdecimal():
        return " ".join(_letter(wired, contact)).strip() or _text(contact)
    others = wired.craft.terminations[contact.termination].contacts
    return (
        label
        if any(other.label.strip().isdecimal() and other.label.strip() != other.number for other in others)
        else ""
    )


def _text(contact: Contact) -> str:
    return clean_label(contact.label).plain


def _differ_by_direction(a: str, b: str) -> bool:
    """TX1 and RX2, FOO_IN and FOO_OUT: the same but for words of direction and numbers; CELL 1 and 2 name none."""
    (near, near_poles), (far, far_poles) = _without_poles(_stems(a)), _without_poles(_stems(b))
    if near_poles != far_poles or not _DIRECTIONS.intersection(near + far):
        return False
    return [word for word in near if word not in _DIRECTIONS] == [word for word in far if word not in _DIRECTIONS]


def _stems(text: str) -> list[str]:
    return [stem for word in words_of(text) if (stem := word.rstrip("+-").rstrip("0123456789"))]


def _without_poles(stems: Sequence[str]) -> tuple[list[str], str]:
    """TXP and RXN are TX and RX of a plus and of a minus."""
    bare, poles = [], ""
    for stem in stems:
        pole = stem[-1] if stem[-1] in "PN" and stem[:-1] in _DIRECTIONS else ""
        bare.append(stem.removesuffix(pole))
        poles += pole
    return bare, poles


def _may_be_phases(wired: Wired, joint: Joint) -> bool:
    """Phases of a motor meet in any order."""
    ends = [wired.craft.terminations[reference] for reference in joint.link]
    if any(
        end.kind is Kind.CAPTIVE and (_has_only_letters(end.contacts) or _is_numbered_trio(end.contacts))
        for end in ends
    ):
        return True
    return any(_has_trio(end.contacts) for end in ends) and all(
        _text(contact) in _PHASE_LETTERS for contact in (joint.a, joint.b)
    )


def _has_only_letters(contacts: Sequence[Contact]) -> bool:
    return all(_text(contact) in _PHASE_LETTERS for contact in contacts)


def _is_numbered_trio(contacts: Sequence[Contact]) -> bool:
    """P1, P2, P3 and nothing else."""
    stems = [split_index(_text(contact).replace(" ", "")) for contact in contacts]
    names = {name for name, _ in stems}
    return len(stems) == 3 and len(names) == 1 and names <= _NUMBERED_PHASES and {n for _, n in stems} == {1, 2, 3}


def motor_leads(part: Termination) -> Sequence[Contact]:
    """The three leads of a motor that are called L1, L2, L3 and the like."""
    return part.contacts if part.kind is Kind.CAPTIVE and _is_numbered_trio(part.contacts) else ()


def _has_trio(contacts: Sequence[Contact]) -> bool:
    letters = {_text(contact) for contact in contacts}
    return set("ABC") <= letters or set("UVW") <= letters


def _poles_crossed(wired: Wired, joint: Joint, open_joints: Sequence[Joint]) -> str:
    """X+ on Y- while X- is on Y+; line A on line B while B is on A; anode on cathode while cathode is on anode."""
    for first, second in combinations(open_joints, 2):
        if joint in (first, second) and (signs := _cross(wired, first, second)):
            if _LEGS.keys() & {joint.a.role.name, joint.b.role.name}:
                return f"{_said(joint)}: plus on a cathode, and minus on an anode"
            if signs <= {"+", "-"}:
                return f"{_said(joint)}: plus on minus, and minus on plus"
            low, high = sorted(signs)
            return f"{_said(joint)}: line {low} on line {high}, and {high} on {low}"
    return ""


def _cross(wired: Wired, first: Joint, second: Joint) -> set[str]:
    """The two signs that meet crosswise; none where they do not."""
    (name_1, near_1), (name_2, near_2) = (_pole(wired, pair.a) for pair in (first, second))
    (far_name_1, far_1), (far_name_2, far_2) = (_pole(wired, pair.b) for pair in (first, second))
    if not all((near_1, near_2, far_1, far_2)) or name_1 != name_2 or far_name_1 != far_name_2:
        return set()
    crossed = near_1 != near_2 and near_1 == far_2 and near_2 == far_1
    return {near_1, near_2} if crossed else set()


def _pole(wired: Wired, contact: Contact) -> tuple[str, str]:
    """A contact's name and its sign: + or -, A or B, P or N; no sign where it has none."""
    if contact.role.name in _LEGS:
        return "", _LEGS[contact.role.name]
    found = re.fullmatch(_POLE, _text(contact))
    return (found["name"], found["sign"]) if found is not None else _letter(wired, contact)


def _harm(joint: Joint) -> int:
    """A ground that does not meet the other's may be a short; two lines exchanged are dead."""
    rails = (RoleClass.GROUND, RoleClass.SUPPLY)
    return harm.SUPPLY_SHORT if any(c.role.cls in rails for c in (joint.a, joint.b)) else harm.DEAD_LINK
