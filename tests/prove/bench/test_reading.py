"""What the meter shows with a mistake in the craft: the short way must agree with probing everything again."""

import random

import pytest

from fixture_kit import FIXTURES
from tabside.analysis.judgement import Judgement
from tabside.craft_reading import read_craft
from tabside.prove.bench.reading import Bench, SoundBench
from tabside.prove.continuity import prove_craft
from tabside.prove.diagnosis import Diagnoser, together
from tabside.prove.measurement import RowKind

ROOTS = ["survey_boat/rev_b/survey_boat", "multirotor/flat/multirotor", "hostile/hostile"]


@pytest.mark.parametrize("root", ROOTS)
def test_a_row_that_is_not_probed_again_shows_what_it_would(root):
    """Against the bench that knows no short way; single mistakes and pairs of them, drawn by dice."""
    judgement = Judgement(read_craft(FIXTURES / f"{root}.kicad_sch"))
    proof = prove_craft(judgement.craft, judgement.made_leads, judgement.pack)
    rows = [row for row in Diagnoser(proof).rows.values() if row.kind is not RowKind.LOOK]
    sound = SoundBench(proof.world)
    dice = random.Random(7)
    for _ in range(120):
        mistakes = dice.sample(proof.mistakes, dice.choice((1, 1, 2)))
        change = together(proof.world, [mistake.change for mistake in mistakes])
        short, full = Bench(proof.world, change, sound=sound), Bench(proof.world, change)
        for row in dice.sample(rows, min(len(rows), 40)):
            assert short.fails(row) is full.fails(row), (mistakes, row)
