"""`tabside diagnose`: what failed measurements mean."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from tabside.cli.printing.paragraphs import filled
from tabside.errors import TabsideError

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Iterator

    from tabside.model.craft import Craft
    from tabside.prove.continuity import Proof
    from tabside.prove.diagnosis import Diagnoser, Diagnosis
    from tabside.prove.measurement import Measurement

_RANGE = re.compile(r"(\d{1,99})(?:-|–|\.\.)(\d{1,99})", re.ASCII)
_NAME = re.compile(r"\d{1,99}|m[0-9a-f]{10}", re.ASCII | re.IGNORECASE)
NOTHING = (
    "Nothing in the model explains these readings, neither one mistake nor two together.  Measure the failed rows "
    "again, then look for what no row finds: a cold joint, a weak crimp, a contact that is not locked, the meter's "
    "setting, a drawing that is wrong."
)


def diagnosed(proof: Proof, arguments: Namespace) -> Diagnosis:
    """What the readings that the user names mean.

    Raises: TabsideError for rows that are not on this drawing's sheet, or that failed and passed at once.
    """
    from tabside.prove.diagnosis import Diagnoser

    _right_sheet(proof.world.craft, arguments.sheet)
    diagnoser = Diagnoser(proof)
    failed = _ids(proof, diagnoser, arguments.failed, "--failed")
    passed = _ids(proof, diagnoser, arguments.passed or "", "--passed")
    if not failed:
        raise TabsideError("no failed row is named; give steps or ids of the continuity sheet: --failed 12,15-17")
    both = [id for id in failed if id in passed]
    if both:
        raise TabsideError(f"{_called(proof, both[0])} is named as failed and as passed; leave out one of them")
    return diagnoser.diagnose(failed, passed)


def _ids(proof: Proof, diagnoser: Diagnoser, text: str, option: str) -> list[str]:
    ids = diagnoser.row_ids(_named(text, len(proof.rows), option))
    twice = next((id for n, id in enumerate(ids) if id in ids[:n]), None)
    if twice is not None:
        raise TabsideError(f"{_called(proof, twice)} is named twice in {option}; name it once")
    return ids


def _called(proof: Proof, id: str) -> str:
    """ "step 12"; a row that the sheet does without has its id alone."""
    return f"step {step}" if (step := proof.step_of.get(id)) else f"the row {id}"


def _named(text: str, steps: int, option: str) -> list[str]:
    """Steps and ids, parted by commas or blanks; `3-5` are the steps 3, 4 and 5."""
    parts = [part.strip() for part in re.split(r"[,;]", text)] if text.strip() else []
    if not all(parts):
        raise TabsideError(f"a step is missing beside a comma in {option} {text.strip()}; write it as 12,15-17")
    named: list[str] = []
    for part in re.sub(r"(\d)\s*(-|–|\.\.)\s*(\d)", r"\1\2\3", " ".join(parts)).split():
        ends = _RANGE.fullmatch(part)
        if ends is None:
            if not _NAME.fullmatch(part):
                raise TabsideError(f'"{part}" in {option} is no step and no id of the continuity sheet; write 12,15-17')
            named.append(part.lower())
            continue
        first, last = int(ends[1]), int(ends[2])
        if first > last:
            write = f"write {last}-{first}" if last >= 1 and first <= steps else f"the sheet has steps 1 to {steps}"
            raise TabsideError(f"the steps {part} run backwards; {write}")
        if not 1 <= first <= last <= steps:
            raise TabsideError(f"the steps {part} are not on the continuity sheet of this drawing: it has 1 to {steps}")
        named += map(str, range(first, last + 1))
    return named


def _right_sheet(craft: Craft, sheet: str | None) -> None:
    if sheet is not None and sheet.strip().lower() != craft.drawing_hash.lower():
        raise TabsideError(
            f"these are readings of another drawing: the sheet says {sheet}, the drawing is now {craft.drawing_hash}; "
            "export the continuity sheet again and measure what has changed"
        )


def diagnosis_json(proof: Proof, diagnosis: Diagnosis) -> dict[str, Any]:
    """Entries of one rank are the same fault: at the other end, or two mistakes made together."""
    from tabside.documents.as_json.proof import row_json, where_json

    craft, after = proof.world.craft, diagnosis.measure_next
    return {
        "format": "tabside/diagnose/1",
        "explains": [
            {
                "mistake": mistake.id,
                "kind": mistake.kind.value,
                "at": [where_json(craft, key) for key in mistake.at],
                "rows": list(explanation.rows),
                "rank": rank,
                "share": round(explanation.weight, 4),
                "together_with": [other.id for other in mistakes if other is not mistake],
                "do": words,
            }
            for rank, (explanation, words) in enumerate(
                zip(diagnosis.explanations, diagnosis.what_to_do, strict=True), 1
            )
            for mistakes in (explanation.mistakes, *explanation.elsewhere)
            for mistake in mistakes
        ],
        "measure_next": after.id if after else None,
        "next_row": row_json(after, proof.step_of.get(after.id)) if after else None,
        "message": " ".join(_messages(proof, diagnosis)) or None,
        "hints": _hints(proof, diagnosis),
    }


def _messages(proof: Proof, diagnosis: Diagnosis) -> Iterator[str]:
    """Of the rows that say themselves what is wrong, and of those that nothing explains."""
    from tabside.prove.cures import of_itself

    for row in diagnosis.of_themselves:
        step = proof.step_of.get(row.id, row.id)
        yield f"Step {step} is {of_itself(row)}  It says: {row.words}"
    if diagnosis.is_unexplained:
        yield NOTHING
    elif diagnosis.unexplained:
        open_steps = ", ".join(_called(proof, row.id) for row in diagnosis.unexplained)
        yield f"Nothing in the model explains {open_steps}: measure again once the rest is put right."
    if diagnosis.is_by_cable:
        yield "No two mistakes explain all of it: each cable is told for itself."


def _hints(proof: Proof, diagnosis: Diagnosis) -> list[str]:
    from tabside.prove.cures import hints

    rows = [(_called(proof, row.id), row) for row in diagnosis.failed]
    return hints(rows, several=len(diagnosis.explanations) > 1)


def print_diagnosis(proof: Proof, diagnosis: Diagnosis) -> None:
    for message in _messages(proof, diagnosis):
        print(filled(message))
    if diagnosis.explanations:
        _print_explanations(proof, diagnosis)
    told = _hints(proof, diagnosis)
    if told:
        print()
    for hint in told:
        print(filled(hint))
    if diagnosis.measure_next is not None:
        print()
        _print_next(proof, diagnosis.measure_next)
    if diagnosis.explanations:
        print()
        print("After the fix measure again every row of the cable that you worked on.")


def _print_explanations(proof: Proof, diagnosis: Diagnosis) -> None:
    print("Likeliest first:")
    for rank, (explanation, words) in enumerate(zip(diagnosis.explanations, diagnosis.what_to_do, strict=True), 1):
        two = "two mistakes: " if len(explanation.mistakes) > 1 else ""
        share = f"{100 * explanation.weight:.0f} %"
        if diagnosis.is_by_cable and explanation.rows:
            share = f"{share} of {', '.join(_called(proof, id) for id in explanation.rows)}"
        print(filled(f"{rank}. {two}{words} ({share})", "", "   "))
    if diagnosis.hidden:
        print(f"{diagnosis.hidden} more {'is' if diagnosis.hidden == 1 else 'are'} less likely.")


def _print_next(proof: Proof, row: Measurement) -> None:
    """What to do, first; an id is only what is typed for a row that the sheet does without."""
    from tabside.prove.measurement import RowKind

    step = proof.step_of.get(row.id)
    if step:
        print(filled(f"Measure next, step {step}: {row.words}"))
        print(filled(f"Then run it again with {step} added to --failed or --passed."))
        return
    begin = "Next" if row.kind is RowKind.LOOK else "Measure next (this row is not on the sheet)"
    print(filled(f"{begin}: {row.words}"))
    print(filled(f"Then run it again with {row.id}, the id of this row, added to --failed or --passed."))
