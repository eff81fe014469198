"""The model block of `export --json`: the whole craft as data, and a schema to read it back.

What is written is what the model's own types hold, so that a saved export says of its craft all that the drawing said.
"""

from __future__ import annotations

import json
import math
from collections import Counter
from collections.abc import Mapping, Sequence
from pathlib import PurePath
from typing import Any, Literal

import msgspec
from msgspec.structs import replace

from tabside.documents.as_json.possible import must_be_possible
from tabside.errors import TabsideError
from tabside.facts.ampacity import usable_tables
from tabside.facts.families import family_ids
from tabside.model.craft import (
    Cable,
    Craft,
    CraftSettings,
    Crowding,
    HeldBoard,
    Lead,
    NamedTogether,
    Oddity,
    Part,
    ShieldPin,
    Termination,
)
from tabside.model.drawing import DrawnLoose, TwoReadings
from tabside.wiring.leads.links import links_of

FORMAT: Literal["tabside/model/1"] = "tabside/model/1"


class Model(msgspec.Struct, frozen=True):
    """A craft as it stands in JSON: what has keys that JSON cannot have stands in lists."""

    format: Literal["tabside/model/1"]
    name: str
    revision: str
    drawing_hash: str
    terminations: tuple[Termination, ...]
    leads: tuple[Lead, ...]
    cables: tuple[Cable, ...]
    parts: tuple[Part, ...]
    crowded: tuple[Crowding, ...]
    oddities: tuple[Oddity, ...]
    settings: CraftSettings  # without the two that follow
    lengths_mm: tuple[tuple[str, str, float], ...]  # termination, termination, length
    insulation_mm: Mapping[int, float]  # AWG -> diameter over the insulation
    rule_nets: Mapping[int, str]
    net_names: Mapping[int, tuple[str, ...]]
    board_files: tuple[HeldBoard, ...]
    held_boards: Mapping[str, int]  # drawn board -> place in `board_files`
    named_together: tuple[NamedTogether, ...]
    loose: tuple[DrawnLoose, ...]
    two_readings: tuple[TwoReadings, ...]
    shields: tuple[ShieldPin, ...]


def model_json(craft: Craft) -> dict[str, Any]:
    """The model block."""
    limits = craft.settings.limits
    places = {held.board.name: place for place, held in enumerate(craft.board_files)}
    model = Model(
        format=FORMAT,
        name=craft.name,
        revision=craft.revision,
        drawing_hash=craft.drawing_hash,
        terminations=tuple(craft.terminations.values()),
        leads=craft.leads,
        cables=craft.cables,
        parts=craft.parts,
        crowded=craft.crowded,
        oddities=craft.oddities,
        settings=replace(craft.settings, lengths_mm={}, limits=replace(limits, insulation_mm={})),
        lengths_mm=tuple((*ends, length) for ends, length in craft.settings.lengths_mm.items()),
        insulation_mm=dict(limits.insulation_mm),
        rule_nets=craft.rule_nets,
        net_names=craft.net_names,
        board_files=tuple(map(_without_folder, craft.board_files)),
        held_boards={board: places[held.board.name] for board, held in craft.held_boards.items()},
        named_together=craft.named_together,
        loose=craft.loose,
        two_readings=craft.two_readings,
        shields=craft.shields,
    )
    said: dict[str, Any] = msgspec.to_builtins(model, str_keys=True, order="deterministic", enc_hook=_plainly)
    return said


def craft_of_model(said: object, file: str) -> Craft:
    """The craft that a model block says.  `file` is named in what is raised.

    Raises: TabsideError when it is none, or does not agree with itself.
    """
    try:
        model = msgspec.convert(said, Model, str_keys=True)
        _nothing_must_be_twice(model)
        _must_be_numbers(said)
        must_be_possible(model)
        _must_be_in_tables(model)
        craft = _craft(model)
        _must_hold_together(craft)
    except (ValueError, KeyError, IndexError, RecursionError) as error:
        reason = str(error) if isinstance(error, ValueError) else f"{error} is nowhere else in it"
        raise TabsideError(f"its model block cannot be read: {reason}; save the export again", file=file) from None
    return craft


def _held(model: Model, board: str, place: int) -> HeldBoard:
    if not 0 <= place < len(model.board_files):
        raise ValueError(f"{board} is held against a board file that is not in it")
    return model.board_files[place]


def _craft(model: Model) -> Craft:
    settings = replace(
        model.settings,
        lengths_mm={(first, second): length for first, second, length in model.lengths_mm},
        limits=replace(model.settings.limits, insulation_mm=dict(model.insulation_mm)),
    )
    return Craft(
        name=model.name,
        revision=model.revision,
        terminations={termination.reference: termination for termination in model.terminations},
        leads=model.leads,
        links=links_of(model.leads),
        cables=model.cables,
        parts=model.parts,
        crowded=model.crowded,
        oddities=model.oddities,
        settings=settings,
        drawing_hash=model.drawing_hash,
        rule_nets=model.rule_nets,
        board_files=model.board_files,
        held_boards={board: _held(model, board, place) for board, place in model.held_boards.items()},
        net_names=model.net_names,
        named_together=model.named_together,
        loose=model.loose,
        two_readings=model.two_readings,
        shields=model.shields,
    )


def _nothing_must_be_twice(model: Model) -> None:
    """Raises: ValueError."""
    for what, names in (
        ("termination", [termination.reference for termination in model.terminations]),
        ("wire", [lead.mark for lead in model.leads]),
        ("cable", [cable.mark for cable in model.cables]),
    ):
        twice = next((name for name, count in Counter(names).items() if count > 1), None)
        if twice is not None:
            raise ValueError(f"{what} {twice} is in it twice")


def _must_be_numbers(said: object) -> None:
    """Python reads NaN and Infinity, which are no JSON, and 1e999.  Raises: ValueError."""
    within = list(said.values()) if isinstance(said, dict) else said
    for value in within if isinstance(within, list) else ():
        if isinstance(value, float) and not math.isfinite(value):
            raise ValueError(f"{value:g} is in it where a number belongs")
        _must_be_numbers(value)


def _must_be_in_tables(model: Model) -> None:
    """Families and the table of currents are those of this Tabside.  Raises: ValueError."""
    families = set(family_ids())
    for termination in model.terminations:
        if termination.family is not None and termination.family not in families:
            raise ValueError(
                f"{termination.reference} is of the family {json.dumps(termination.family)}, which is in no table"
            )
    table = model.settings.limits.ampacity
    if table not in usable_tables():
        raise ValueError(f"there is no table of currents {json.dumps(table)}")


def _must_hold_together(craft: Craft) -> None:
    """Contacts know their place, leads end on contacts, cables and leads name each other, a kit's items are listed.

    Raises: KeyError.
    """
    _contacts_must_know_their_place(craft)
    by_mark = {lead.mark: lead for lead in craft.leads}
    of_cable: dict[str, set[str]] = {cable.mark: set() for cable in craft.cables}
    for lead in craft.leads:
        if lead.cable is not None:
            of_cable[lead.cable].add(lead.mark)
        for end in lead.ends:
            craft.contact(end)
        if lead.link != (lead.a[0], lead.b[0]):
            raise KeyError(" - ".join(lead.link))
    for cable in craft.cables:
        if of_cable[cable.mark] != set(cable.leads):
            raise KeyError(f"{cable.mark} of {', '.join(cable.leads)}")
        reached = {reference for mark in cable.leads for reference, _ in by_mark[mark].ends}
        if sorted(cable.ends) != sorted(reached):
            raise KeyError(f"{cable.mark} between {' and '.join(cable.ends)}")
    settings = craft.settings
    listed: dict[str, Sequence[object]] = {
        "cable": settings.stock_cables,
        "lead": settings.stock_leads,
        "housing": settings.stock_housings,
        "contact": settings.stock_contacts,
        "wire": settings.stock_wire,
    }
    for kit in settings.stock_kits:
        for item in kit.items:
            if not 0 <= item.index < len(listed[item.kind]):
                raise KeyError(f"{item.kind} {item.index} of kit {kit.name}")


def _contacts_must_know_their_place(craft: Craft) -> None:
    """Raises: KeyError, or ValueError for a contact that is there twice."""
    nets: set[int] = set()
    for reference, termination in craft.terminations.items():
        numbers: set[str] = set()
        for contact in termination.contacts:
            if contact.termination != reference:
                raise KeyError(f"{contact.termination} of contact {contact.number} of {reference}")
            if contact.number in numbers:
                raise ValueError(f"contact {contact.number} of {reference} is in it twice")
            numbers.add(contact.number)
            nets.add(contact.net_id)
    for lead in craft.leads:
        if lead.net_id not in nets:
            raise KeyError(f"net {lead.net_id} of {lead.mark}")


def _without_folder(held: HeldBoard) -> HeldBoard:
    """Where its file lies is true on one machine only."""
    board = held.board
    return replace(held, board=replace(board, folder="", file=PurePath(board.file).name))


def _plainly(value: object) -> object:
    """What the library does not take as it is: mappings that cannot be changed."""
    if isinstance(value, Mapping):
        return dict(value)
    raise NotImplementedError(type(value).__name__)
