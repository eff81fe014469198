"""What the page to work from lists: things to do and to measure, in the order of work, each with an id of its own.

An id is made of what is done or measured.  A box that was ticked for it stays ticked as long as that is the same.
"""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from tabside.documents.build import CraftBuild
from tabside.documents.order_of_work import VOLTS
from tabside.make.sheets.cable_plan import Action, CablePlan, Step
from tabside.make.sheets.face_row import face_of_step
from tabside.make.sheets.part_steps import PARTS_TITLE
from tabside.prove.measurement import Measurement, RowKind
from tabside.prove.power.rows import PowerRow
from tabside.prove.rows.limits import limit_read
from tabside_exporters.formats.cells import clean
from tabside_exporters.pages.sheet_layout import face_values, sheet_anchor
from tabside_exporters.tables.continuity import needs
from tabside_exporters.tables.first_power import notes


class Reading(Struct, frozen=True):
    """What may be typed beside a row, and what it must be."""

    unit: str  # "ohm", "V"
    lowest: float | None  # None: not known
    highest: float | None  # None: not known, and nothing is judged
    expected: float | None = None  # the most that a wire in order has, where a hobby meter cannot tell it


class Item(Struct, frozen=True):
    """One box to tick."""

    id: str
    words: str
    number: int | str = ""  # step of the sheet
    meter: str = ""  # how the meter is set
    test: bool = False  # it can fail, and a failure means something
    reading: Reading | None = None
    otherwise: str = ""  # what to do when it is not so
    face: dict[str, object] | None = None
    live: bool = False
    measured: bool = False  # a row of the continuity sheet, which may stand in several places


class Section(Struct, frozen=True):
    """A cable, or what is done before and after all cables."""

    id: str
    title: str
    items: tuple[Item, ...]
    notes: tuple[str, ...] = ()
    handling: tuple[str, ...] = ()  # how contacts are released and seated
    cautions: tuple[str, ...] = ()
    stopped: str = ""
    alike: tuple[tuple[str, str], ...] = ()  # cables that are made in the same way: place on the page, name


def bench_sections(build: CraftBuild) -> tuple[Section, ...]:
    """Everything from the first touch of the probes to the propellers."""
    plan, order, steps = build.plan, build.order_of_work, build.proof.step_of
    before, all_made, volts = (
        tuple(_measured(row, steps) for row in rows) for rows in (order.before, order.all_made, order.volts)
    )
    whole = Section("after", order.title, all_made)
    parts = tuple(Item(_id("part", part.words), clean(part.words)) for part in plan.parts)
    sections = [Section("before", "Before the first cable", before, notes=_clean(needs(build)))]
    for n, cable in enumerate(plan.cables):
        if parts and (cable.meets_pack or n == order.packs_from):
            sections.append(Section("parts", PARTS_TITLE, parts))
            parts = ()
        sections += [whole] if n == order.packs_from else []
        sections.append(_cable(cable, steps, _alike(cable, plan.cables)))
    sections += [
        Section("parts", PARTS_TITLE, parts),
        *([whole] if order.packs_from == len(plan.cables) else []),
        Section("volts", VOLTS, volts),
        *_power(build.first_power.rows, _clean(notes(build))),
    ]
    return tuple(_unlike(section for section in sections if section.items or section.stopped or section.notes))


def _alike(cable: CablePlan, cables: Sequence[CablePlan]) -> tuple[tuple[str, str], ...]:
    """The others that one sheet of the plan serves together with this one."""
    first = cable.same_as or cable.label
    others = [other for other in cables if first in (other.label, other.same_as) and other.label != cable.label]
    return tuple((sheet_anchor(other.label), clean(other.name)) for other in others)


def _cable(cable: CablePlan, steps: dict[str, int], alike: tuple[tuple[str, str], ...]) -> Section:
    looks = [
        Item(_id("look", cable.label, text), f"Check by eye first: {clean(text)}") for text in cable.needs_one_look
    ]
    items = [item for step in cable.steps for item in _of_step(step, cable, steps)]
    stated = [f"From {cable.from_what}."] if cable.from_what else []
    elsewhere = [f"{place.told(steps)}." for place in cable.elsewhere]
    handling = [f"{handling.title}. Release: {handling.release}. Seat: {handling.seat}." for handling in cable.handling]
    return Section(
        id=clean(cable.label).replace(" ", "-"),
        title=clean(f"{cable.heading}. {cable.between}: {cable.method.words}"),
        items=(*looks, *items),
        notes=tuple(clean(text) for text in (*stated, *cable.warnings, *elsewhere)),
        handling=tuple(clean(text) for text in handling),
        cautions=tuple(clean(text) for text in cable.cautions),
        stopped=clean(cable.stopped),
        alike=alike,
    )


def _of_step(step: Step, cable: CablePlan, steps: dict[str, int]) -> Iterator[Item]:
    """A step, or the measurements of a test; with volts what is put in and switched on for them."""
    if step.action is Action.TEST and step.rows:
        if any(row.kind is RowKind.VOLTS for row in step.rows):
            yield Item(_id("volts", cable.label, step.words), clean(step.words), live=True)
        for row in step.rows:
            yield replace(_measured(row, steps), live=step.live)
        return
    end = next(end for end in cable.ends if end.name == step.end)
    face = face_of_step(step, end)
    # What sits in the plug after the step is part of what the step is; the cable's number is not.
    made_of = (cable.start_from, cable.from_what, step.end, step.words, step.occupancy, step.parked, step.housing)
    yield Item(
        _id("step", *made_of),
        clean(step.words),
        face=face_values(face) if face is not None else None,
        live=step.live,
    )


def _measured(row: Measurement, steps: dict[str, int]) -> Item:
    return Item(
        row.id,
        clean(row.words),
        number=steps.get(row.id, ""),
        meter=clean(row.meter),
        test=True,
        reading=reading_of(row),
        measured=True,
    )


def reading_of(row: Measurement) -> Reading | None:
    """Ohms where the row has a limit, volts where it is measured with the pack; nothing for a beep alone."""
    if row.kind is RowKind.VOLTS:
        lowest, highest = row.volts or (None, None)
        return Reading("V", lowest, highest)
    if row.kind is RowKind.BEEP and row.has_limit:
        if row.limit_ohm is None:
            return Reading("ohm", None, None)
        return Reading("ohm", 0.0, limit_read(row.limit_ohm), row.limit_ohm)
    return None


def _clean(texts: Sequence[str]) -> tuple[str, ...]:
    return tuple(clean(text) for text in texts)


def _power(rows: Sequence[PowerRow], notes: tuple[str, ...]) -> Iterator[Section]:
    """First power, stage by stage."""
    stages: dict[str, list[Item]] = {}
    for row in rows:
        told = [row.do, f"Measure {row.where}" if row.where else "", f"Must be: {row.expect}" if row.expect else ""]
        told.append(f"Limiter: {row.limiter}" if row.limiter else "")
        reading = Reading("V", *row.volts) if row.volts else None
        words = clean(". ".join(text.rstrip(".") for text in told if text) + ".")
        id = _id("power", row.stage, words, row.volts)
        item = Item(id, words, test=True, reading=reading, otherwise=clean(row.otherwise))
        stages.setdefault(row.stage, []).append(item)
    for n, (stage, items) in enumerate(stages.items(), 1):
        yield Section(f"power-{n}", clean(f"First power. {stage}"), tuple(items), notes if n == 1 else ())


def _id(kind: str, *made_of: object) -> str:
    return kind[0] + hashlib.sha256(repr((kind, *made_of)).encode()).hexdigest()[:10]


def _unlike(sections: Iterator[Section]) -> Iterator[Section]:
    """Things to do that are alike get ids by their turn; a measurement is the same wherever it stands."""
    met: Counter[str] = Counter()
    for section in sections:
        items = []
        for item in section.items:
            met[item.id] += 1
            alike = met[item.id] > 1 and not item.measured
            items.append(replace(item, id=f"{item.id}-{met[item.id]}") if alike else item)
        yield replace(section, items=tuple(items))
