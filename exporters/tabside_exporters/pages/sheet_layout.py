"""A sheet of the plan as blocks for a page: what is done to one wire stands together, moves and tests by themselves."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import groupby

from markupsafe import Markup
from msgspec.structs import replace

from tabside.make.method import Method
from tabside.make.sheets.cable_plan import HANDS, Action, CableEnd, CablePlan, Handling, Step
from tabside.make.sheets.face_row import FaceRow, face_of_step
from tabside.model.natural import natural
from tabside.prove.measurement import Measurement, Test
from tabside.prove.rows.row_words import row_words
from tabside.words.cautions import at_live
from tabside_exporters.formats.cells import clean
from tabside_exporters.pages.plug_drawing import family_at_true_size

_PAIR = re.compile(r"(?<=\d)-(?=\d)")
_FEW = 4  # wires that a row names
_FEW_ROWS = 4  # so many stay together in one column
_MANY = 32  # steps, and rows of tests twice, from which a sheet is set in smaller letters, so that it fits one side
LONG = 10  # ways from which a row has no room for the names of wires
MOST_BOXES = 6  # one for each of the cables that a sheet serves
_MOVED = (Method.RE_PIN, Method.RE_HOUSE)


def sheet_anchor(name: str) -> str:
    """The place on a page of the sheet of this name: a cable's label."""
    return f"s-{clean(name).replace(' ', '-')}"


def handling_block(handling: Handling, *, crimped: bool = True) -> dict[str, object]:
    """How the contacts of a family are released and seated, and crimped where they are crimped by hand."""
    return {
        "title": clean(handling.title),
        "true_size": Markup(family_at_true_size(handling.family)),
        "release": clean(handling.release),
        "seat": clean(handling.seat),
        "crimp": [clean(text) for text in handling.crimp] if crimped else [],
        "reuse": clean(handling.reuse),
        "source": clean(handling.source),
    }


def blocks_of(cable: CablePlan, row_numbers: dict[str, int]) -> list[dict[str, object]]:
    """Blocks in working order; `row_numbers`: of the continuity sheet, by the id of a row."""
    blocks: list[dict[str, object]] = []
    ends = {end.name: end for end in cable.ends}
    for steps in _grouped(cable):
        first = steps[0]
        if first.action is Action.TEST and first.rows:
            blocks.append(_test(first, row_numbers))
        elif not _of_a_wire(first, cable):
            line = _line([first], ends, whole=True)
            blocks.append({"kind": "line", "lines": [line], "head": "", "live": first.live})
        else:
            lines = [_line(part, ends, whole=False) for part in _by_end(steps)]
            blocks.append({"kind": "wire", "lines": lines, "head": _head(steps), "live": first.live})
    return blocks


def is_dense(cable: CablePlan) -> bool:
    """Whether the sheet needs smaller letters on paper."""
    return sum(1 + 2 * len(step.rows) for step in cable.steps) > _MANY


def _by_end(steps: Sequence[Step]) -> Iterator[list[Step]]:
    """What is done at one end after the other: one line of the page."""
    for _, part in groupby(steps, key=lambda step: (step.end, step.cavity)):
        yield list(part)


def _grouped(cable: CablePlan) -> Iterator[list[Step]]:
    """Steps that follow each other and are done to one wire."""
    group: list[Step] = []
    for step in cable.steps:
        alike = bool(group) and (step.lead, step.live) == (group[0].lead, group[0].live)
        if alike and _of_a_wire(step, cable) and _of_a_wire(group[0], cable):
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
    """ "W18 SCL / SDA BK"; a pack's own lead is marked LIVE."""
    signals = dict.fromkeys(step.signal for step in steps if step.signal)
    live = "LIVE" if steps[0].live else ""
    return clean(" ".join(filter(None, (live, steps[0].lead, " / ".join(signals), steps[0].colour))))


def _line(steps: Sequence[Step], ends: dict[str, CableEnd], *, whole: bool) -> dict[str, object]:
    """Steps at one end, and the row as it is after the last of them."""
    end = ends[steps[0].end]
    faces = [face for step in steps if (face := face_of_step(step, end)) is not None]
    tell = _told if whole else _brief
    place = "" if whole or steps[0].cavity is None else f"{end.shown} {steps[0].cavity}"
    return {
        "place": clean(place),
        "items": [{"number": step.number, "words": unbroken(clean(tell(step, end)))} for step in steps],
        "face": face_values(faces[-1]) if faces else None,
    }


def unbroken(text: str) -> str:
    """The text with its pairs of contacts, "2-3", held together at the end of a line."""
    return _PAIR.sub("\u2011", text)


def _told(step: Step, end: CableEnd) -> str:
    """A move without what the row beside it shows; any other step in full."""
    if step.action not in HANDS or step.cavity is None or step.by_words:
        return step.words
    who = ", ".join(filter(None, (step.signal, step.colour)))
    wire = f"{step.lead} ({who})" if who else step.lead
    left_out = step.action is Action.LEAVE_OUT
    doing = f"put {wire} into" if step.action is Action.PUT_IN else f"take {wire} out of"
    then = " and leave it out" if left_out else f"; park {step.lead}" if step.parked == step.lead else ""
    housing = f" of the {step.housing} housing" if step.housing else ""
    told = f"{end.shown}: {doing} cavity {step.cavity}{housing}{step.brief}{then}"
    return at_live(told) if step.live else told


def _brief(step: Step, _: CableEnd) -> str:
    return f"put in{step.brief}" if step.action is Action.PUT_IN else step.brief


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
    rows = [{"number": row_numbers.get(row.id, ""), "words": clean(_row(row))} for row in step.rows]
    return {
        "kind": "test",
        "head": clean(f"{step.number}. {step.words}"),
        "around": [clean(text) for text in step.around],
        "first": [clean(aside.words) for aside in step.unplug],
        "rows": rows,
        "then": [clean(aside.words) for aside in step.plug_in],
        "live": step.live,
        "few": len(rows) + len(step.unplug) + len(step.plug_in) <= _FEW_ROWS,
    }


def _row(row: Measurement) -> str:
    """Without the marks of many wires, and without what a single wire's limit rests on: see the continuity sheet."""
    told = replace(row, notes=()) if row.test is Test.WIRE else row
    return row_words(told) if len(row.leads) <= _FEW else told.words


def numbered(rows: Sequence[Measurement]) -> dict[str, int]:
    return {row.id: n for n, row in enumerate(rows, 1) if row.id}


def twin_lines(cable: CablePlan, twins: Sequence[CablePlan]) -> list[str]:
    """Which wire of the other cables stands for which of the first."""
    lines = []
    if 0 < len(twins) < MOST_BOXES:
        lines.append(clean(f"Boxes from the left: {', '.join(plan.label for plan in (cable, *twins))}"))
    for twin in twins:
        ends = " - ".join(end.shown for end in twin.ends)
        wires = ", ".join(f"{mine} for {other}" for mine, other in zip(twin.leads, cable.leads, strict=True))
        lines.append(clean(f"{twin.label}: {ends}; {wires}"))
    return lines


def pads_of(cable: CablePlan) -> list[dict[str, object]]:
    """Where wires are soldered: contact, signal and wire at each place, by the contacts' numbers."""
    places: dict[str, list[dict[str, str]]] = {}
    for step in cable.steps:
        if step.action is Action.SOLDER:
            wire = " ".join(filter(None, (step.lead, step.colour)))
            pad = {"number": clean(step.cavity or ""), "signal": clean(step.signal), "lead": clean(wire)}
            places.setdefault(step.end, []).append(pad)
    shown = {end.name: end.shown for end in cable.ends}
    return [
        {"place": clean(shown[end]), "pads": sorted(pads, key=lambda pad: natural(pad["number"]))}
        for end, pads in places.items()
    ]
