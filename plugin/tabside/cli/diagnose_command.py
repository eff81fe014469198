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
    from tabside.prove.diagnosis import Diagnosis

_RANGE = re.compile(r"(\d{1,99})(?:-|–|\.\.)(\d{1,99})", re.ASCII)
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
    failed = diagnoser.row_ids(_named(arguments.failed, len(proof.rows)))
    passed = diagnoser.row_ids(_named(arguments.passed or "", len(proof.rows)))
    if not failed:
        raise TabsideError("no failed row is named; give steps or ids of the continuity sheet: --failed 12,15-17")
    both = [name for name in failed if name in passed]
    if both:
        raise TabsideError(f"the row {both[0]} is named as failed and as passed; leave out one of them")
    return diagnoser.diagnose(list(dict.fromkeys(failed)), list(dict.fromkeys(passed)))


def _named(text: str, steps: int) -> list[str]:
    """Steps and ids, parted by commas or blanks; `3-5` are the steps 3, 4 and 5."""
    named: list[str] = []
    for part in re.sub(r"(\d)\s*(-|–|\.\.)\s*(\d)", r"\1\2\3", text.replace(",", " ").replace(";", " ")).split():
        ends = _RANGE.fullmatch(part)
        if ends is None:
            named.append(part)
            continue
        first, last = int(ends[1]), int(ends[2])
        if first > last:
            raise TabsideError(f"the steps {part} run backwards; write {last}-{first}")
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
    }


def _messages(proof: Proof, diagnosis: Diagnosis) -> Iterator[str]:
    """Of the rows that say themselves what is wrong, and of those that nothing explains."""
    from tabside.prove.diagnosis import OF_ITSELF

    for row in diagnosis.of_themselves:
        step = proof.step_of.get(row.id, row.id)
        yield f"Step {step} is {OF_ITSELF}  It says: {row.words}"
    if diagnosis.is_unexplained:
        yield NOTHING


def print_diagnosis(proof: Proof, diagnosis: Diagnosis) -> None:
    for message in _messages(proof, diagnosis):
        print(filled(message))
    if not diagnosis.explanations:
        return
    print("Likeliest first:")
    for rank, (explanation, words) in enumerate(zip(diagnosis.explanations, diagnosis.what_to_do, strict=True), 1):
        two = "two mistakes: " if len(explanation.mistakes) > 1 else ""
        print(filled(f"{rank}. {two}{words} ({100 * explanation.weight:.0f} %)", "", "   "))
    row = diagnosis.measure_next
    if row is not None:
        step = proof.step_of.get(row.id)
        name = f"step {step}" if step else f"row {row.id}"
        print()
        print(filled(f"Measure next, {name}: {row.words}"))
        print(filled(f"Then run it again with {step or row.id} among --failed or --passed."))
    print()
    print("After the fix measure again every row of the cable that you worked on.")
