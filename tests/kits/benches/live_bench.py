"""A bench with a live pack: it follows `tabside compare --json` and says where a hand or a meter would be in danger.

It knows of the two drawings which wires are a pack's own, and follows wires through splices and in-line parts by
itself.  Brute force, no source outside.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from benches.shared import joint_of, termination_of
from tabside.analysis.joined.lead_ends import EndKind, how_leads_are_made
from tabside.analysis.joined.part_plugs import packs
from tabside.model.craft import Craft

HANDS = ("take out", "leave out", "cut", "strip", "crimp", "solder")
COVERED = (EndKind.SPLICE, EndKind.INLINE, EndKind.CUP)


def own_wires(craft: Craft) -> set[str]:
    """Of packs, soldered or crimped to something: not those whose own plug goes in."""
    live = packs(craft)
    found = set()
    for made in how_leads_are_made(craft):
        own = [end for end in made.ends if end.kind is EndKind.OWN and craft.terminations[end.key[0]].board in live]
        if own and EndKind.MATED not in {end.kind for end in made.ends}:
            found.add(made.lead.mark)
    return found


def reached(craft: Craft, own: Iterable[str]) -> set[str]:
    """By going on from each wire to all that share a splice or an in-line part with it, until nothing is added."""
    ends = {lead.mark: {key[0] for key in lead.ends} for lead in craft.leads}
    passing = {ref for ref, each in craft.terminations.items() if each.kind.value in ("splice", "in-line")}
    found = set(own)
    while True:
        places = {ref for mark in found for ref in ends[mark]} & passing
        more = {mark for mark, refs in ends.items() if refs & places} - found
        if not more:
            return found
        found |= more


def at_joints(old: Craft, new: Craft, answer: Mapping[str, Any]) -> list[str]:
    """What is wrong at the joints of a pack that is soldered to pads in the new craft."""
    steps = [step for cable in answer["cables"] for step in cable["steps"]]
    rows = {row["id"]: row for cable in answer["cables"] for row in cable["measure"]}
    own = own_wires(new)
    feeds = reached(new, own)
    ends = {lead.mark: lead.ends for lead in new.leads}
    soldered_on = any(new.terminations[ref].kind.value == "pad" for mark in feeds for ref, _ in ends[mark])
    if not soldered_on or any(cable["stopped"] for cable in answer["cables"]):
        return []
    ground = {mark for mark in own if any(new.contact(key).role.is_ground for key in ends[mark])}
    fused = any(ref[0] in "FS" and new.terminations[ref].kind.value == "in-line" for m in feeds for ref, _ in ends[m])
    said: list[str] = []
    taped: set[tuple[str, str]] = set()
    joints: set[tuple[str, str]] = set()  # mark, termination: made by these steps
    on, looked = False, ""
    for n, step in enumerate(steps):
        ref, _ = place = joint_of(step)
        if "take the tape off" in step["words"]:
            taped.clear()
        if step["swap"] == "out":  # tape goes with the board that it is on
            gone = {ref for ref, each in old.terminations.items() if f"the old board {each.board} out" in step["words"]}
            taped = {at for at in taped if at[0] not in gone}
        if step["action"] == "insulate" and step["live"] and steps[n - 1]["action"] in ("take out", "leave out"):
            taped.add(place)
        mine = [rows[each] for each in step["rows"] or ()]
        if on and any(row["kind"] == "beep" for row in mine):
            said.append(f"ohms while the pack is on: {step['words']}")
        for row in mine:
            bare = row["words"].partition("; ")[0]
            if row["kind"] == "volts" and any(
                f"bare end of {mark} for" in bare and at in bare.split(" for ")[1] for mark, at in joints
            ):
                said.append(f"this end is not bare: {bare}")
        if step["action"] == "solder" and step["cavity"]:
            if place in taped and not step["of_old"]:
                said.append(f"soldered under its tape: {step['words']}")
            joints.add((step["lead"] or "", ref))
            on = on or (step["lead"] in own - ground and not fused)
        if step["action"] == "test" and mine and all(row["kind"] == "look" for row in mine):
            before = [each for each in steps[:n] if each["live"] and each["end"] == step["end"]]
            looked = next((each["action"] for each in reversed(before)), "")
            if looked == "insulate" and "solder" in {each["action"] for each in before[-3:]} and step["live"]:
                said.append(f"looked at under its cover: {step['words']}")
    return said


def dangers(old: Craft, new: Craft, answer: Mapping[str, Any]) -> list[str]:
    """A line for each."""
    said: list[str] = []
    if any(cable["stopped"] for cable in answer["cables"]):
        return said
    steps = [step for cable in answer["cables"] for step in cable["steps"]]
    rows = {row["id"]: row for cable in answer["cables"] for row in cable["measure"]}
    was, now = own_wires(old), own_wires(new)
    on = set(was)  # own wires that are soldered on
    kept = {pair[0]: pair[1] for cable in answer["cables"] for pair in cable["wires"]}
    hot = reached(old, was)
    fuses = {ref for ref, each in old.terminations.items() if ref[0] == "F" and each.kind.value == "in-line"}
    fuses &= {key[0] for lead in old.leads if lead.mark in hot for key in lead.ends}
    fuse_in, touched = bool(fuses), False
    kinds = {(m.lead.mark, end.key): end.kind for m in how_leads_are_made(new) for end in m.ends}
    covered: dict[tuple[str, tuple[str, str]], bool] = {}
    for n, step in enumerate(steps):
        mark = step["old_lead"] or (step["lead"] or "")
        spare = step["words"].split("spare ")
        if step["lead"] is None and len(spare) > 1:
            mark = spare[1].split(" ")[0].rstrip(":")
        is_own = mark in was if step["old_lead"] or step["lead"] is None else step["lead"] in now
        if "no fuse in" in step["words"]:
            fuse_in = False
        if step["words"].startswith(("put the fuse into", "put the fuse back into")):
            fuse_in = True
        if step["action"] in HANDS and step["cavity"] is not None and is_own:
            touched = True
            if not step["live"]:
                said.append(f"at a pack's own wire and not LIVE: {step['words']}")
            if fuse_in:
                said.append(f"the fuse is in: {step['words']}")
            if step["action"] in ("take out", "leave out") and "it is off already" in step["words"]:
                on.discard(mark)
            elif step["action"] in ("take out", "leave out"):
                after = steps[n + 1]
                if after["action"] != "insulate" or not after["live"]:
                    said.append(f"bare and not taped: {step['words']}")
                on.discard(mark)
        if step["action"] == "solder" and step["lead"] and step["cavity"]:
            key = joint_of(step)
            if kinds.get((step["lead"], key)) in COVERED:
                covered[(step["lead"], key)] = False
        if step["action"] == "insulate":
            ref = termination_of(step)
            for joint in covered:
                if joint[1][0] == ref and (step["cavity"] is None or joint[1][1] == str(step["cavity"])):
                    covered[joint] = True
                if joint[1][0] == ref and new.terminations[ref].kind.value == "splice":
                    covered[joint] = True
        if step["action"] == "test":
            beeps = [rows[each] for each in step["rows"] if rows[each]["kind"] == "beep"]
            still = {kept[mark] for mark in on if mark in kept} & {lead.mark for lead in new.leads}
            met = reached(new, still) if still else set()
            said += [f"ohms at a pack: {row['words']}" for row in beeps if set(row["leads"]) & met]
    left = any("leave the fuse out" in step["words"] for step in steps)  # a pack without a plug
    if fuses and touched and not fuse_in and not left and fuses & set(new.terminations):
        said.append("the fuse stays out")
    said += [f"{mark} is not covered at {key}" for (mark, key), done in covered.items() if not done]
    return said
