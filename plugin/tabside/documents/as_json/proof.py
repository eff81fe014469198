"""What is measured, and which mistakes it finds, as JSON."""

from __future__ import annotations

from typing import Any

from tabside.documents.as_json.verdict import contact_json
from tabside.model.craft import ContactKey, Craft
from tabside.prove.bench.mistakes import Mistake
from tabside.prove.continuity import Proof
from tabside.prove.measurement import End, Measurement


def proof_json(proof: Proof) -> dict[str, list[dict[str, Any]]]:
    """The rows of the continuity sheet and, beside them, the mistakes with what each is found by."""
    craft = proof.world.craft
    return {
        "rows": [row_json(row, step) for step, row in enumerate(proof.rows, 1)],
        "mistakes": [_mistake(craft, proof, mistake) for mistake in proof.mistakes],
    }


def row_json(row: Measurement, step: int | None) -> dict[str, Any]:
    """One row; `step` is None for one that the sheet does without."""
    return {
        "step": step,
        "id": row.id,
        "group": row.group,
        "kind": row.kind.value,
        "test": row.test.value,
        "when": row.when.value,
        "meter": row.meter,
        "cable": row.cable,
        "plugged": list(row.plugged),
        "from": _end(row.where),
        "joined": [_end(end) for end in row.joined],
        "open": [_end(end) for end in row.open],
        "volts": list(row.volts) if row.volts else None,
        "limit_ohm": row.limit_ohm,
        "leads": list(row.leads),
        "words": row.words,
    }


def _end(end: End) -> dict[str, Any]:
    return {
        "at": end.at.value,
        "board": end.board or None,
        "termination": end.termination or None,
        "contact": contact_json(end.contact or None),
        "lead": end.lead,
    }


def _mistake(craft: Craft, proof: Proof, mistake: Mistake) -> dict[str, Any]:
    return {
        "id": mistake.id,
        "kind": mistake.kind.value,
        "cable": mistake.cable,
        "leads": list(mistake.leads),
        "at": [where_json(craft, key) for key in mistake.at],
        "found_by": list(proof.found_by[mistake.id]),
        "by_eye": proof.by_eye.get(mistake.id),
    }


def where_json(craft: Craft, key: ContactKey) -> dict[str, Any]:
    """A contact, or a whole plug where it names none."""
    reference, number = key
    termination = craft.terminations[reference]
    contact = next((contact for contact in termination.contacts if contact.number == number), None)
    place = contact.place if contact else termination.place
    return {
        "board": termination.board,
        "termination": reference,
        "contact": contact_json(number or None),
        "net": contact.net if contact else None,
        "sheet": place.sheet,
        "at_mm": list(place.at_mm),
    }
