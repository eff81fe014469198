"""A sheet of the plan as blocks for a page: what is done to one wire stands together, moves and tests by themselves."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tabside.make.method import Method
from tabside.make.sheets.cable_plan import HANDS, Action, CableEnd, CablePlan, Step
from tabside.make.sheets.face_row import FaceRow, face_of_step
from tabside.prove.measurement import Measurement
from tabside.prove.row_words import row_words
from tabside_exporters.formats.cells import clean

LONG = 10  # ways from which a row has no room for the names of wires
_MOVED = (Method.RE_PIN, Method.RE_HOUSE)


def blocks_of(cable: CablePlan, row_numbers: dict[str, int]) -> list[dict[str, object]]:
    """Blocks in working order; `row_numbers`: of the continuity sheet, by the id of a row."""
    blocks: list[dict[str, object]] = []
    ends = {end.name: end for end in cable.ends}
    for steps in _grouped(cable):
        first = steps[0]
        if first.action is Action.TEST and first.rows:
            blocks.append(_test(first, row_numbers))
        elif len(steps) == 1 and not _of_a_wire(first, cable):
            blocks.append({"kind": "line", "items": [_item(first, ends, whole=True)], "head": "", "live": first.live})
        else:
            items = [_item(step, ends, whole=False) for step in steps]
            blocks.append({"kind": "wire", "items": items, "head": _head(steps), "live": first.live})
    return blocks


def _grouped(cable: CablePlan) -> Iterator[list[Step]]:
    """Steps that follow each other and are done to one wire."""
    group: list[Step] = []
    for step in cable.steps:
        if group and _of_a_wire(step, cable) and _of_a_wire(group[0], cable) and step.lead == group[0].lead:
            group.append(step)
            continue
        if group:
            yield group
        group = [step]
    if group:
        yield group


def _of_a_wire(step: Step, cable: CablePlan) -> bool:
    """Whether it may stand under the wire's name; moves of a finished cable are followed one by one."""
    return bool(step.lead) and step.listed and not (step.action in HANDS and cable.method in _MOVED)


def _head(steps: Sequence[Step]) -> str:
    """ "W18 SCL / SDA BK"."""
    signals = dict.fromkeys(step.signal for step in steps if step.signal)
    return clean(" ".join(filter(None, (steps[0].lead, " / ".join(signals), steps[0].colour))))


def _item(step: Step, ends: dict[str, CableEnd], *, whole: bool) -> dict[str, object]:
    face = face_of_step(step, ends[step.end])
    text = step.words if whole else step.brief
    return {"number": step.number, "words": clean(text), "face": None if face is None else face_values(face)}


def face_values(face: FaceRow) -> dict[str, object]:
    boxes = [{"number": box.number, "lead": clean(box.lead), "here": box.here} for box in face.boxes]
    side = "left" if face.mark_left else "right"
    order = ", ".join(f"{box['number']} {box['lead'] or 'empty'}" for box in boxes)
    where = f"contact-1 mark at the {side}" if face.known else "counted from the contact-1 mark, side not known"
    return {
        "boxes": boxes,
        "mark_left": face.mark_left,
        "long": len(boxes) > LONG,
        "parked": clean(face.parked),
        "housing": face.housing,
        "label": f"from the left: {order}; {where}" if face.known else f"{where}: {order}",
    }


def _test(step: Step, row_numbers: dict[str, int]) -> dict[str, object]:
    rows = [{"number": row_numbers.get(row.id, ""), "words": clean(row_words(row))} for row in step.rows]
    return {"kind": "test", "head": clean(f"{step.number}. {step.words}"), "rows": rows, "live": step.live}


def numbered(rows: Sequence[Measurement]) -> dict[str, int]:
    return {row.id: n for n, row in enumerate(rows, 1) if row.id}


def twin_lines(cable: CablePlan, twins: Sequence[CablePlan]) -> list[str]:
    """Which wire of the other cables stands for which of the first."""
    lines = []
    for twin in twins:
        ends = " - ".join(end.shown for end in twin.ends)
        wires = ", ".join(f"{mine} for {other}" for mine, other in zip(twin.leads, cable.leads, strict=True))
        lines.append(clean(f"{twin.label}: {ends}; {wires}"))
    return lines


def pads_of(cable: CablePlan) -> list[dict[str, object]]:
    """Where wires are soldered: contact, signal and wire at each place; no order is meant."""
    places: dict[str, list[dict[str, str]]] = {}
    for step in cable.steps:
        if step.action is Action.SOLDER:
            wire = " ".join(filter(None, (step.lead, step.colour)))
            pad = {"number": clean(step.cavity or ""), "signal": clean(step.signal), "lead": clean(wire)}
            places.setdefault(step.end, []).append(pad)
    shown = {end.name: end.shown for end in cable.ends}
    return [{"place": clean(shown[end]), "pads": pads} for end, pads in places.items()]
