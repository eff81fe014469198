"""What the meter shows with a mistake in the craft: the short way must agree with probing everything again."""

import random

import pytest

from crafts.craft_kit import captive, craft, pads
from crafts.odd_crafts import odd_craft, odd_symbols
from fixture_kit import FIXTURES
from tabside.analysis.judgement import Judgement
from tabside.craft_reading import read_craft
from tabside.model.craft import Kind
from tabside.prove.bench.reading import Bench, SoundBench, State
from tabside.prove.continuity import prove_craft
from tabside.prove.diagnosis import Diagnoser, together
from tabside.prove.measurement import At, End, RowKind

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


def own_wires_beside_pads(*grounds):
    """A board with pads and with a wire of its own, both on one ground: copper and wires lead to the same places."""
    return craft(
        pads("J1", ["V", *grounds], board="power", signals="12V, GND, GND", gives="12V 5A"),
        pads("J2", "V G", board="drive", signals="12V, GND", takes="12V 2A"),
        captive("J3", "L H", board="drive", signals="12V, GND"),
        pads("J4", "L", board="lamp", signals="12V"),
    )


@pytest.mark.parametrize("case", ["GH", "HG", *range(8)])
def test_what_certainly_beeps_may_beep(case):
    """Else a row says of one end that it beeps and that it is open."""
    odd = isinstance(case, int)
    made = odd_craft(odd_symbols(random.Random(case)), 0) if odd else own_wires_beside_pads(*case)
    judgement = Judgement(made)
    proof = prove_craft(judgement.craft, judgement.made_leads, judgement.pack)
    bench, world = Bench(proof.world, promised=True), proof.world
    soldered = [ref for ref, termination in made.terminations.items() if termination.kind is Kind.PAD]
    boards = {termination.board for termination in made.terminations.values()}
    starts = [world.probed(End(At.GROUND, board)) for board in boards]
    starts += [place for ends in world.wires.values() for place in ends]
    for plugged in (frozenset[str](), frozenset(soldered), frozenset(made.terminations)):
        for start in starts:
            sure, maybe = bench.reach(start, State(plugged))
            assert sure <= maybe, (start, sure - maybe)
    for row in proof.rows:
        assert not {*row.joined} & {*row.open}, row
