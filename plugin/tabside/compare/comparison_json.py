"""The comparison as the JSON object that `tabside compare --json` prints."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from tabside.compare.bench import CableWork
from tabside.compare.cable_changes import RE_MAKE, SHORTEN
from tabside.compare.comparison import Comparison
from tabside.compare.matching import BY_FIT
from tabside.documents.plan_json import step_json
from tabside.documents.proof_json import row_json
from tabside.documents.verdict_json import finding_json

FORMAT = "tabside/compare/1"
_DO = {SHORTEN: RE_MAKE}


def comparison_json(comparison: Comparison) -> dict[str, Any]:
    """A plain object for `json.dumps`; what does not apply is null."""
    retest = comparison.retest
    return {
        "format": FORMAT,
        "changes": [
            {
                "kind": change.kind,
                "subject": change.subject,
                "name": change.name,
                "before": change.before,
                "after": change.after,
                "bench": change.bench,
            }
            for change in comparison.changes
        ],
        "same": comparison.same,
        "cleared": comparison.cleared,
        "findings": {
            "new": [finding_json(each) for each in retest.new],
            "gone": [finding_json(each) for each in retest.gone],
            "standing": len(retest.still),
        },
        "matching": list(_matching(comparison)),
        "cables": [_cable(work, comparison.step_of) for work in comparison.work],
        "parts": [{"item": item, "more": more} for item, more in comparison.purchases],
    }


def _cable(work: CableWork, step_of: Mapping[str, int]) -> dict[str, Any]:
    fate = work.fate
    return {
        "old": fate.old.mark if fate.old else None,
        "new": fate.new.mark if fate.new else None,
        "do": _DO.get(fate.what, fate.what),
        "from": fate.old.mark if fate.old and fate.new and fate.wires else None,
        "steps": [step_json(step) for step in work.steps],
        "measure": [row_json(row, step_of.get(row.id)) for row in work.measure],
    }


def _matching(comparison: Comparison) -> Iterator[list[str | None]]:
    """Each termination of both drawings once; null where it has gone, or is new."""
    matching = comparison.matching
    for reference in comparison.old.terminations:
        yield [reference, matching.pairs.get(reference), matching.how.get(reference, BY_FIT)]
    known = set(matching.pairs.values())
    for reference in comparison.new.terminations:
        if reference not in known:
            yield [None, reference, BY_FIT]
