"""Measurements at in-line parts, and the last one before the battery is plugged in."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis.joints import letters_of
from tabside.analysis.meeting.part_plugs import brings_battery
from tabside.model.craft import Contact, Kind, Termination
from tabside.prove.measurement import Bench, Measurement, Test

_PARTS, _BATTERY = "In-line parts", "Last, all plugged in but the battery"
_EXPECT = {
    "F": ("sounds", "and does not with the fuse out"),
    "FH": ("sounds", "and does not with the fuse out"),
    "CB": ("sounds", "and does not when it is off"),
    "SW": ("sounds in one position, does not in the other", ""),
    "S": ("sounds in one position, does not in the other", ""),
    "JP": ("sounds closed, does not open", ""),
    "D": ("diode range: conducts one way only", "the ring or bar marks the end that current leaves by"),
    "L": ("sounds", ""),
    "FB": ("sounds", ""),
}


def inline_parts(bench: Bench) -> Iterator[Measurement]:
    """Each part from end to end; its leads are measured with the others."""
    for part in bench.craft.terminations.values():
        if part.kind is Kind.INLINE:
            expect, note = _expected(part)
            for a, b in part.passes:
                ends = (bench.name((part.reference, a)), bench.name((part.reference, b)))
                yield Measurement(_PARTS, Test.PART, (), *ends, expect, note=note)


def _expected(part: Termination) -> tuple[str, str]:
    letters = letters_of(part.reference)
    if letters == "R":
        return (f"reads its value, {part.value}" if part.value else "reads its value", "")
    expect, note = _EXPECT.get(letters, ("sounds", ""))
    value = f"value {part.value}" if letters == "F" and part.value else ""
    return (expect, "; ".join(text for text in (note, value) if text))


def pack_volts(bench: Bench, group: str, reference: str) -> Measurement:
    """A pack's leads are live: volts and polarity are all that may be measured there."""
    contacts = bench.craft.terminations[reference].contacts
    plus = next((each for each in contacts if each.role.is_supply), contacts[0])
    minus = next((each for each in contacts if each.role.is_ground), None)
    black = bench.name(minus.key) if minus else f"the other contact of {bench.termination_name(reference)}"
    said = str(bench.pack) if bench.pack else "the pack's voltage (not stated)"
    return Measurement(
        group, Test.VOLTS, (), f"red probe: {bench.name(plus.key)}", f"black probe: {black}",
        f"DC volts: {said}, no minus sign",
        note="the pack alone: never measure resistance on it, never let the probes touch each other",
    )  # fmt: skip


def before_the_battery(bench: Bench) -> Iterator[Measurement]:
    """Across each place where a pack will be plugged in: the craft must not be a short."""
    for pack in bench.craft.terminations.values():
        if not brings_battery(pack):
            continue
        plus = _met(bench, pack, [contact for contact in pack.contacts if contact.role.is_supply])
        minus = _met(bench, pack, [contact for contact in pack.contacts if contact.role.is_ground])
        if plus and minus:
            yield Measurement(
                _BATTERY, Test.SHORT, (), bench.name(plus.key), bench.name(minus.key),
                "does not keep sounding; the reading climbs",
                note=f"at the craft's side of {bench.termination_name(pack.reference)}, switches on; "
                "a chirp while capacitors fill is no fault",
            )  # fmt: skip


def _met(bench: Bench, pack: Termination, own: list[Contact]) -> Contact | None:
    """The first contact of a board that one of these meets."""
    keys = {contact.key for contact in own}
    for joint in bench.joints.get(pack.reference, ()):
        if joint.a.key in keys:
            return joint.b
        if joint.b.key in keys:
            return joint.a
    return None
