"""Steps that make a cable lead by lead, from pre-crimped leads, tails, wire, or a part's own leads."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from tabside.make.needs.cable_jobs import soldered
from tabside.make.sheets.loose.covers import COVERED, cover, cover_joint
from tabside.make.sheets.loose.joints import join_parts, solder_all
from tabside.make.sheets.loose.loose_sheet import LooseSheet
from tabside.make.sheets.loose.pack_leads import last_joints, live_lead, measure_volts
from tabside.make.sheets.loose.preparing import cover_unused_leads, prepare
from tabside.make.sheets.when.lead_joints import LeadJoint
from tabside.make.sheets.when.pack_volts import MEASURE_VOLTS, volts_in_turn
from tabside.make.solve.lead_methods import is_of_two_parts
from tabside.prove.measurement import Measurement, RowKind

TEST_LOOSE = "test now, while the ends are loose"
_CRAFT_TEST = "test now, before a wire of the pack: all else plugged in and soldered"


def loose_steps(sheet: LooseSheet) -> None:
    """Plugs first, then the tests that are possible while ends are loose, then joints; a pack's own leads last."""
    for row in sheet.moments.parts:
        sheet.steps.test(row.where.termination, "test now, the part loose, no wire on it yet", (row,))
    for made in sheet.cold:
        prepare(made, sheet)
    cover_unused_leads(sheet)
    sheet.test(sheet.moments.loose, TEST_LOOSE)
    solder_all(sheet)
    for made in filter(is_of_two_parts, sheet.cold):
        join_parts(made, sheet)
    looks = _last_looks(sheet)
    before_cover = (*sheet.moments.soldered, *looks.pop("", ()))
    sheet.test(before_cover, f"test now{_so_far(sheet)}")
    _cover_all(sheet, {row.where.termination for row in before_cover if row.kind is RowKind.LOOK})
    sheet.test(sheet.moments.craft, _CRAFT_TEST)
    told = {row.id for row in before_cover} | {row.id for rows in looks.values() for row in rows}
    _at_packs(sheet, looks, tuple(row for row in sheet.moments.last if row.id not in told))


def _at_packs(sheet: LooseSheet, looks: Mapping[str, Sequence[Measurement]], at_end: Sequence[Measurement]) -> None:
    """Their own wires, their volts, and the joints that come after these.

    `looks`: at joints of each of these wires before they are covered; `at_end`: when all is done.
    """
    hot, volts_rows = sheet.hot, sheet.moments.volts
    alone = [row for row in volts_rows if not row.leads and hot]
    sheet.test(alone, MEASURE_VOLTS)
    for made in hot:
        live_lead(made, sheet, looks.get(made.lead.mark, ()))
    if not sheet.last:
        sheet.test(at_end, "inspect now")
    left = [row for row in volts_rows if row not in alone]
    joined = sheet.facts.power.joined[sheet.choice.job.label]
    volts = volts_in_turn(left, sheet.facts.ways, joined, sheet.craft)
    bared = measure_volts(volts, sheet)
    last_joints(sheet, at_end, bared, volts[-1].gates if volts else ())


def _so_far(sheet: LooseSheet) -> str:
    """What is made before the test of all that is soldered."""
    ends = [joint for made in sheet.made_here for joint in (LeadJoint(made, end) for end in made.ends)]
    now = [joint.end for joint in ends if not sheet.waits(joint)]
    if any(end.kind in COVERED for end in now):
        return ", before the joints are covered"
    return ", with all joints made" if sheet.late or any(map(soldered, now)) else ""


def _cover_all(sheet: LooseSheet, seen: Collection[str]) -> None:
    """`seen`: places that the eye has been to."""
    for joint in sheet.late:
        cover_joint(joint, sheet, seen)
    for made in sheet.cold:
        cover(made, sheet, seen)


def _last_looks(sheet: LooseSheet) -> dict[str, tuple[Measurement, ...]]:
    """Looks at joints that will be covered, by the pack's own lead that is the last there; "": by the others."""
    joints = [*sheet.late, *sheet.joints_now((*sheet.cold, *sheet.hot))]
    on = {joint.end.key[0]: joint.mark for joint in joints}  # the last one stays
    covered = {joint.at for joint in joints if joint.end.kind in COVERED or sheet.gets_tape(joint)}
    last = {joint.end.key[0] for joint in sheet.last}
    found: dict[str, tuple[Measurement, ...]] = {}
    for row in sheet.moments.last:
        place = row.where.termination
        mark = on.get(place, "")
        if (mark, place) in covered and place not in last:
            by = mark if mark in sheet.packs.live else ""
            found[by] = (*found.get(by, ()), row)
    return found
