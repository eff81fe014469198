"""The sheets of the demo crafts stay short, without finding less than all that a meter can find."""

import pytest

from fixture_kit import FIXTURES
from tabside.craft_reading import craft_of
from tabside.documents.build import craft_build
from tabside.prove.bench.mistakes import only_seen
from tabside.prove.bench.reading import Bench
from tabside.prove.continuity import Proof
from tabside.prove.measurement import RowKind, When
from tabside.read import read_drawing
from tabside.rules import check_craft


def proof_of(path: str) -> Proof:
    root = str(FIXTURES / path)
    craft = craft_of(read_drawing(root), root)
    return craft_build(craft, check_craft(craft)).proof


@pytest.mark.parametrize(
    ("path", "most"),
    [("survey_boat/rev_b/survey_boat.kicad_sch", 60), ("multirotor/flat/multirotor.kicad_sch", 60)],
)
def test_few_rows_find_all_that_any_row_could_find(path, most):
    proof = proof_of(path)
    assert len(proof.rows) <= most and proof.cover.optimal
    spare = [row for row in proof.spare if row.kind is not RowKind.LOOK]
    for mistake in proof.mistakes:
        if mistake.id in proof.by_eye and not only_seen(proof.world, mistake):
            bench = Bench(proof.world, mistake.change)
            assert not any(bench.fails(row) for row in (*spare, *proof.rows) if row.kind is not RowKind.LOOK)


@pytest.mark.parametrize("path", ["survey_boat/rev_b/survey_boat.kicad_sch", "multirotor/flat/multirotor.kicad_sch"])
def test_only_what_is_measured_with_bare_ends_says_so(path):
    proof = proof_of(path)
    said = [row for row in (*proof.rows, *proof.spare) if "before the bare ends are soldered" in row.note]
    assert {row.when for row in said} <= {When.PLUGGED}
