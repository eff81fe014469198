"""Ends of wires off their joints and out of their plugs: for good, or because they go elsewhere."""

from __future__ import annotations

from msgspec.structs import replace

from tabside.analysis.joined.lead_ends import EndKind
from tabside.compare.reuse.wires import JOINTS, Ends
from tabside.compare.work.hands.both_builds import BothBuilds
from tabside.compare.work.hands.cavities import EndMove, fill, in_row
from tabside.compare.work.hands.work_sheet import WorkSheet
from tabside.compare.work.plugs import OLD
from tabside.make.sheets.cable_plan import Action
from tabside.make.sheets.step_list import Words
from tabside.model.craft import Cable, ContactKey, Kind
from tabside.words.signals import own_lead_words


def take_off_joints(sheet: WorkSheet, old: Cable) -> None:
    """All joints of an old cable, wire by wire; what goes with a pack is none of them."""
    builds, steps = sheet.builds, sheet.steps
    plugs = builds.plugs.ends_of(old)
    for mark in (mark for mark in old.leads if mark not in builds.with_pack):
        lead = builds.old.by_mark[mark]
        for key in lead.ends:
            at = (f"{OLD}{key[0]}", key[1])
            if key == lead.ends[1] and _is_of_two_parts(builds, mark):
                _part(sheet, Action.LEAVE_OUT, at, steps.spare(mark), key)
            if key[0] not in plugs and not builds.is_own(mark, key):
                _unsolder(sheet, Action.LEAVE_OUT, at, steps.spare(mark), frozenset(lead.ends), key)


def lend(sheet: WorkSheet) -> None:
    """Wires in these plugs that go into another cable: out of here, its turn comes later."""
    builds, places = sheet.builds, sheet.places
    for wire in sheet.fate.lends:
        for key in sorted(wire):
            if key[0] in places and builds.new.terminations[places[key[0]]].takes_plug:
                then = f": it goes into {builds.goes_into[wire]}" if wire in builds.goes_into else ""
                _lift(sheet, wire, key, then)
                builds.plugs.loosen(wire, key)


def lift(sheet: WorkSheet, move: EndMove) -> None:
    """An end that goes elsewhere, unless it is out already."""
    if not sheet.builds.plugs.is_loose(move.wire, move.here):
        _lift(sheet, move.wire, move.here)


def _lift(sheet: WorkSheet, wire: Ends, key: ContactKey, then: str = "") -> None:
    """Out of its plug, or off its joint."""
    builds, steps, name, at = sheet.builds, sheet.steps, sheet.names[wire], sheet.at(key)
    if builds.old_end(wire, key).kind in JOINTS or builds.is_cup(sheet.old_mark(wire), key):
        fill(steps, at, None)
        _unsolder(sheet, Action.TAKE_OUT, at, name, wire, key)
    elif in_row(steps, at):
        steps.take_out(at[0], int(key[1]), name, parks=False, then=then)
    else:
        steps.work(Action.TAKE_OUT, at, name, f"take it out of cavity {key[1]}{then}")


def _unsolder(sheet: WorkSheet, action: Action, at: ContactKey, name: str, wire: Ends, key: ContactKey) -> None:
    """A joint; in a cup and at an in-line part it lies under a cover; a splice's is cut off once for all its wires."""
    builds, steps = sheet.builds, sheet.steps
    cup = builds.is_cup(sheet.old_mark(wire), key)
    where = sheet.cup_words(at) if cup else steps.contact(at)
    covered = cup or builds.old_end(wire, key).kind is EndKind.INLINE
    cut = ": cut its cover off first, clear of the insulation" if covered else _splice_opened(builds, key)
    steps.work_on(action, at, name, Words(f"unsolder it from {where}", last=cut))
    steps.steps[-1] = replace(steps.steps[-1], uncovers=bool(cut))


def _is_of_two_parts(builds: BothBuilds, old_mark: str) -> bool:
    """Whether two parts' own wires are joined to each other in it."""
    return all(end.kind is EndKind.OWN for end in builds.old.made_by_mark[old_mark].ends)


def _part(sheet: WorkSheet, action: Action, at: ContactKey, name: str, key: ContactKey) -> None:
    """Two parts' own wires, each of which stays on its part."""
    other = own_lead_words(sheet.builds.old.craft, key)
    cut = ": cut the cover off their joint first, clear of the insulation"
    sheet.steps.work_on(action, at, name, Words(f"unsolder it from {other}, and tape that end, too", last=cut))
    sheet.steps.steps[-1] = replace(sheet.steps.steps[-1], uncovers=True)


def _splice_opened(builds: BothBuilds, key: ContactKey) -> str:
    """Of a splice that goes: its cover comes off before its first wire; one that stays is opened where all is done."""
    reference = key[0]
    goes = builds.old.terminations[reference].kind is Kind.SPLICE and reference not in builds.matching.pairs
    if not goes or reference in builds.opened:
        return ""
    builds.opened.add(reference)
    return ": cut the splice's cover off first, clear of the insulation"


def take_out(sheet: WorkSheet, wire: Ends, key: ContactKey, name: str) -> None:
    """One end of a wire that leaves the cable, or of a part's own that ends elsewhere now."""
    builds, steps, old_mark = sheet.builds, sheet.steps, sheet.old_mark(wire)
    at = sheet.at(key)
    again = not steps.is_spare(name)
    off = Action.TAKE_OUT if again else Action.LEAVE_OUT
    if _is_of_two_parts(builds, old_mark) and key == builds.old.by_mark[old_mark].ends[1]:
        _part(sheet, off, at, name, key)
    if builds.is_own(old_mark, key):
        return  # it begins inside the part
    in_plug = in_row(steps, at) and builds.old_end(wire, key).kind not in JOINTS  # a plug may go in where pads were
    if builds.is_cup(old_mark, key):
        fill(steps, at, None)
        _unsolder(sheet, off, at, name, wire, key)
    elif again and in_plug:
        steps.take_out(at[0], int(key[1]), name, parks=False)
    elif again:
        steps.work(Action.TAKE_OUT, at, name, f"take it off {steps.contact(at)}")
    elif in_plug:
        steps.leave_out(at[0], int(key[1]), name)
    else:
        cut = _splice_opened(builds, key)
        steps.work_on(Action.LEAVE_OUT, at, name, Words(f"take it off {steps.contact(at)}, for good", last=cut))
        steps.steps[-1] = replace(steps.steps[-1], uncovers=bool(cut))
