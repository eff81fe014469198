"""Leads that no table of names decides, decided by the drawing's own text.

Four signs of a crossed cable that need no table: the two grounds do not meet; what is called alike at both ends is
joined crosswise; a plus meets a minus while its minus meets the other's plus, and so do A and B of a line in pairs; a
light's anode meets a cathode while its cathode meets the other's anode.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from tabside.analysis import harm
from tabside.analysis.joined.joints import Joint
from tabside.analysis.joined.wired import Wired
from tabside.analysis.judging.contact_texts import LEGS, NO_POLE, ContactTexts, Pole, text_of
from tabside.analysis.meeting.outcome import Agreement, Cause, Outcome, clash
from tabside.facts.labels.text import split_index, words_of
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


class _Link(Struct, frozen=True):
    """The joints of a link that text may speak against, and what stands at their ends."""

    joints: list[Joint]
    grounds_meet: bool
    grounds: tuple[frozenset[Joint], frozenset[Joint]]  # of the first end and of the second
    near: frozenset[str]
    far: frozenset[str]
    poles: frozenset[tuple[Pole, Pole]]


def text_clashes(wired: Wired, outcomes: Mapping[Joint, Agreement]) -> dict[Joint, Agreement]:
    """Joints that are not judged and that the text at their ends speaks against."""
    found: dict[Joint, Agreement] = {}
    texts = ContactTexts(wired)
    for joints in wired.links.values():
        open_joints = [
            joint
            for joint in joints
            if not outcomes[joint].judged or _may_be_taps(joint) or _may_be_crossed(texts, joint)
        ]
        if len(open_joints) > 1:
            link = _link(texts, open_joints, joints)
            for joint in open_joints:
                reason = _against(wired, texts, joint, link)
                if reason and _are_legs(joint):
                    both = f"{_said(joint)}, and the other two legs as well: it stays dark"
                    found[joint] = clash(both, _harm(joint), Cause.CLASSES)
                elif reason:
                    found[joint] = Agreement(Outcome.WARN, reason, _harm(joint), Cause.TEXT)
    return found


def _link(texts: ContactTexts, open_joints: list[Joint], joints: Sequence[Joint]) -> _Link:
    return _Link(
        open_joints,
        any(other.a.role.is_ground and other.b.role.is_ground for other in joints),
        (
            frozenset(joint for joint in open_joints if joint.a.role.is_ground),
            frozenset(joint for joint in open_joints if joint.b.role.is_ground),
        ),
        frozenset(texts.name(joint.a) for joint in open_joints),
        frozenset(texts.name(joint.b) for joint in open_joints),
        frozenset((texts.pole(joint.a), texts.pole(joint.b)) for joint in open_joints),
    )


def _may_be_taps(joint: Joint) -> bool:
    """Two plus contacts of names that no table has (B1+, B2+), or with numbers (BAT1, BAT2): taps of a balance plug."""
    return all(
        (end.role.cls is RoleClass.UNKNOWN and end.label.strip().endswith("+"))
        or (end.role.battery and end.role.index is not None)
        for end in (joint.a, joint.b)
    )


def _are_legs(joint: Joint) -> bool:
    return all(end.role.name in LEGS for end in (joint.a, joint.b))


def _may_be_crossed(texts: ContactTexts, joint: Joint) -> bool:
    """Two lines in pairs whose own names say their letter (TXD_A, RXD_A), or two legs of lights."""
    return _are_legs(joint) or all(texts.letter(end) != NO_POLE for end in (joint.a, joint.b))


def _against(wired: Wired, texts: ContactTexts, joint: Joint, link: _Link) -> str:
    return _grounds_apart(joint, link) or _exchanged(wired, texts, joint, link) or _poles_crossed(texts, joint, link)


def _grounds_apart(joint: Joint, link: _Link) -> str:
    """Each end's ground goes to a contact that is not the other's ground."""
    if link.grounds_meet or not all(link.grounds) or not any(joint in side for side in link.grounds):
        return ""
    return f"{_said(joint)}: the grounds of the two ends do not meet"


def _said(joint: Joint) -> str:
    return f'"{joint.a.label}" on "{joint.b.label}"'


def _exchanged(wired: Wired, texts: ContactTexts, joint: Joint, link: _Link) -> str:
    """The name at one end stands at the other end too, on another contact that is joined, and the other way round."""
    a, b = texts.name(joint.a), texts.name(joint.b)
    if not a or not b or a == b or b not in link.near or a not in link.far:
        return ""
    if _differ_by_direction(a, b) or _may_be_phases(wired, joint):
        return ""
    return f"{_said(joint)}, while both ends have both names"


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
        text_of(contact) in _PHASE_LETTERS for contact in (joint.a, joint.b)
    )


def _has_only_letters(contacts: Sequence[Contact]) -> bool:
    return all(text_of(contact) in _PHASE_LETTERS for contact in contacts)


def _is_numbered_trio(contacts: Sequence[Contact]) -> bool:
    """P1, P2, P3 and nothing else."""
    stems = [split_index(text_of(contact).replace(" ", "")) for contact in contacts]
    names = {name for name, _ in stems}
    return len(stems) == 3 and len(names) == 1 and names <= _NUMBERED_PHASES and {n for _, n in stems} == {1, 2, 3}


def motor_leads(part: Termination) -> Sequence[Contact]:
    """The three leads of a motor that are called L1, L2, L3 and the like."""
    return part.contacts if part.kind is Kind.CAPTIVE and _is_numbered_trio(part.contacts) else ()


def _has_trio(contacts: Sequence[Contact]) -> bool:
    letters = {text_of(contact) for contact in contacts}
    return set("ABC") <= letters or set("UVW") <= letters


def _poles_crossed(texts: ContactTexts, joint: Joint, link: _Link) -> str:
    """X+ on Y- while X- is on Y+; line A on line B while B is on A; anode on cathode while cathode is on anode."""
    (name, sign), (far_name, far_sign) = texts.pole(joint.a), texts.pole(joint.b)
    if not sign or not far_sign or sign == far_sign:
        return ""
    if ((name, far_sign), (far_name, sign)) not in link.poles:
        return ""
    if LEGS.keys() & {joint.a.role.name, joint.b.role.name}:
        return f"{_said(joint)}: plus on a cathode, and minus on an anode"
    if {sign, far_sign} == {"+", "-"}:
        return f"{_said(joint)}: plus on minus, and minus on plus"
    low, high = sorted((sign, far_sign))
    return f"{_said(joint)}: line {low} on line {high}, and {high} on {low}"


def _harm(joint: Joint) -> int:
    """A ground that does not meet the other's may be a short; two lines exchanged are dead."""
    rails = (RoleClass.GROUND, RoleClass.SUPPLY)
    return harm.SUPPLY_SHORT if any(c.role.cls in rails for c in (joint.a, joint.b)) else harm.DEAD_LINK
