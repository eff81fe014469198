"""Tables from which the page itself works out what a failed test means: which mistake shows in which row."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tabside.prove.bench.mistakes import LIKELY, Mistake
from tabside.prove.continuity import Proof
from tabside.prove.cures import OF_ITSELF, cure
from tabside.prove.diagnosis import FAR, MAY_FAIL, MOST_SHOWN, NOT_NAMED, NOT_YET, Diagnoser
from tabside.prove.measurement import Measurement, RowKind
from tabside.words.contacts import termination_name
from tabside_exporters.formats.cells import clean

_MOST = 400_000  # mistakes times rows; beyond it only what finds a mistake is told: the page must open on a phone


def diagnosis_tables(proof: Proof) -> dict[str, object]:
    """Rows and mistakes; a mistake names by their places in `rows` those that it fails, and those that it may."""
    diagnoser = Diagnoser(proof)
    rows = [*proof.rows, *(row for id, row in diagnoser.rows.items() if id not in proof.step_of)]
    too_many = len(rows) * len(diagnoser.mistakes) > _MOST
    if too_many:
        rows = list(proof.rows)
    shown = _found(diagnoser, rows) if too_many else diagnoser.shown(rows)
    return {
        "rows": [_row(row, proof, diagnoser) for row in rows],
        "mistakes": [_mistake(mistake, shows, proof) for mistake, shows in zip(diagnoser.mistakes, shown, strict=True)],
        "others_may": too_many,  # whether a mistake may fail the rows that it does not name
        "may_fail": MAY_FAIL,
        "most_shown": MOST_SHOWN,
        "not_named": NOT_NAMED,
        "not_yet": NOT_YET,
        "of_itself": f"This test is {OF_ITSELF}",
    }


def _found(diagnoser: Diagnoser, rows: Sequence[Measurement]) -> Iterator[list[bool | None]]:
    found_by = diagnoser.proof.found_by
    return ([row.id in found_by.get(mistake.id, ()) for row in rows] for mistake in diagnoser.mistakes)


def _row(row: Measurement, proof: Proof, diagnoser: Diagnoser) -> dict[str, object]:
    return {
        "id": row.id,
        "step": proof.step_of.get(row.id, 0),
        "look": row.kind is RowKind.LOOK,
        "own": diagnoser.is_of_itself(row.id),
        "words": clean(row.words),
    }


def _mistake(mistake: Mistake, shown: Sequence[bool | None], proof: Proof) -> dict[str, object]:
    return {
        "same": f"{mistake.kind.value}|{' '.join(sorted(mistake.leads))}",
        "at": clean(termination_name(proof.world.craft, mistake.at[0][0])),
        "do": clean(cure(proof.world, (mistake,))),
        "weight": LIKELY[mistake.kind] * (1.0 if mistake.near else FAR),
        "fails": [n for n, shows in enumerate(shown) if shows is True],
        "may": [n for n, shows in enumerate(shown) if shows is None],
    }
