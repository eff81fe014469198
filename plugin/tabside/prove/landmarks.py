"""The landmark test: a cable's order proved by real boards, without trust in any picture of a plug.

Battery off, one end plugged into its real board; from a ground of that board that is known without this sheet to the
loose end's ground cavity it sounds, to each supply cavity it does not; then the other end.
"""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis.joints import Joint
from tabside.analysis.meeting.part_plugs import brings_battery
from tabside.model.craft import Cable, Contact, Kind, Termination
from tabside.model.roles import Role, RoleClass
from tabside.prove.measurement import Bench, Measurement, Test

_CHIRP = "a short chirp is a capacitor filling: wait"


def landmarks(bench: Bench, group: str, cable: Cable) -> Iterator[Measurement]:
    """For each end that is plugged in, what the loose ends must say.

    What is expected follows what the loose end's own board has there, not which lead is drawn to it: a cable whose
    order is wrong fails, as drawn or as made.
    """
    marks = set(cable.leads)
    for reference in cable.ends:
        plugged = bench.craft.terminations[reference]
        if not _can_be_plugged(plugged):
            continue
        found: dict[str, dict[str, tuple[Contact, Joint]]] = {}
        for joint in bench.joints.get(reference, ()):
            far = joint.b if joint.a.termination == reference else joint.a
            if marks & set(joint.leads) and far.termination != reference and not _inside(bench, far, joint):
                found.setdefault(far.termination, {}).setdefault(far.number, (far, joint))
        for loose in (bench.craft.terminations[each] for each in bench.craft.terminations if each in found):
            if plugged.takes_plug or loose.takes_plug:
                yield from _test(bench, group, plugged, loose, found[loose.reference])


def _can_be_plugged(termination: Termination) -> bool:
    """A splice or an in-line part is no board with a ground of its own; a pack is live."""
    return termination.kind not in (Kind.SPLICE, Kind.INLINE) and not brings_battery(termination)


def _inside(bench: Bench, far: Contact, joint: Joint) -> bool:
    """Whether the lead there begins inside a part: it has no loose end."""
    captive = bench.craft.terminations[far.termination].kind is Kind.CAPTIVE
    return captive and bench.begins_inside(_last_lead(bench, far, joint))


def _last_lead(bench: Bench, far: Contact, joint: Joint) -> str:
    return next(mark for mark in joint.leads if far.key in bench.made[mark].lead.ends)


def _role(contact: Contact, joint: Joint) -> Role:
    """What the loose end's board has there; the plugged one's word for it where that is not known."""
    near = joint.a if joint.b is contact else joint.b
    return contact.role if contact.role.judged else near.role


def _test(
    bench: Bench, group: str, plugged: Termination, loose: Termination, far: dict[str, tuple[Contact, Joint]]
) -> Iterator[Measurement]:
    contacts = [(contact, joint, _role(contact, joint)) for contact, joint in far.values()]
    grounds = [(contact, joint) for contact, joint, role in contacts if role.is_ground]
    supplies = [(contact, joint) for contact, joint, role in contacts if role.is_supply]
    start = f"known ground of {plugged.board}, {_how_joined(bench, plugged)}"
    if not grounds:
        if any(role.cls is not RoleClass.PHASE for _, _, role in contacts):
            yield Measurement(
                group, Test.LANDMARK, (), start, bench.termination_name(loose.reference),
                "cannot be done: no lead between them is ground",
                note="prove contact 1 of both plugs on the boards by eye, twice",
            )  # fmt: skip
        return
    for contact, joint in grounds:
        yield _row(bench, group, start, contact, joint, "sounds", "")
    for contact, joint in supplies:
        yield _row(bench, group, start, contact, joint, "does not sound", _CHIRP)


def _row(bench: Bench, group: str, start: str, contact: Contact, joint: Joint, expect: str, note: str) -> Measurement:
    last = _last_lead(bench, contact, joint)
    through = f"through {', '.join(joint.through)}" if joint.through else ""
    return Measurement(
        group, Test.LANDMARK, joint.leads, start, bench.probe(last, contact.key), expect,
        note="; ".join(text for text in (through, note) if text),
    )  # fmt: skip


def _how_joined(bench: Bench, plugged: Termination) -> str:
    name = bench.termination_name(plugged.reference)
    if plugged.kind is Kind.CAPTIVE:
        return "if it has one to touch"
    if plugged.kind is Kind.PAD:
        return f"soldered to {name}"
    return f"with {name} plugged in"
