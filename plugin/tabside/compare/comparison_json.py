"""The comparison as the JSON object that `tabside compare --json` prints."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tabside.compare.comparison import Comparison
from tabside.compare.matching import BY_FIT
from tabside.documents.verdict_json import finding_json

FORMAT = "tabside/compare/1"


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
