"""Every mistake on random crafts against the sheet, read to the letter by a bench that does not know how it was made.

Published test practice: continuity of every wire, and no short to any other (NASA-STD-8739.4 and IPC/WHMA-A-620 table
19 as quoted by a supplier ask for both of every harness).  Which mistakes hands make is this product's own list.
"""

import random
from collections import Counter
from functools import cache

import pytest

from benches.model_bench import ModelBench, key_of
from dice.random_harness import random_craft
from tabside.analysis.joined.lead_ends import how_leads_are_made
from tabside.analysis.judgement import Judgement
from tabside.documents.as_json.proof import proof_json
from tabside.prove.continuity import prove_craft

SEEDS = range(1, 81)
KINDS = {
    "swapped contacts",
    "off by one",
    "mirrored plug",
    "wire left out",
    "bridge",
    "pad bridge",
    "swapped at solder",
    "crossed supply",
    "own plug turned",
    "wrong connector",
    "label on the wrong cable",
}


@cache
def bench_and_sheet(seed):
    craft = random_craft(seed)
    leads = how_leads_are_made(craft)
    return ModelBench(craft, leads), proof_json(prove_craft(craft, leads, Judgement(craft).pack))


@pytest.mark.parametrize("seed", SEEDS)
def test_a_sound_craft_passes_every_row_whatever_its_boards_are_like_inside(seed):
    bench, sheet = bench_and_sheet(seed)
    for throw in range(5):
        dice = random.Random(seed * 1000 + throw)
        failed = [row["words"] for row in sheet["rows"] if not bench.passes(row, bench.right, dice, kind_boards=False)]
        assert not failed


@pytest.mark.parametrize("seed", SEEDS)
def test_every_mistake_fails_a_row_or_is_named_as_one_for_the_eye(seed):
    bench, sheet = bench_and_sheet(seed)
    listed = {key_of(mistake): mistake for mistake in sheet["mistakes"]}
    deeds = 0
    for deed in bench.deeds():
        deeds += 1
        dice = random.Random(seed)
        failed = {row["id"] for row in sheet["rows"] if not bench.passes(row, deed.hardware, dice, kind_boards=True)}
        mistake = listed.get((deed.kind, deed.at, deed.leads))
        if deed.kind == "wrong connector":  # connectors of one pinout are named by one of them
            mistake = next(each for key, each in listed.items() if key[0] == deed.kind and key[1] & deed.at)
        assert failed or (mistake and mistake["by_eye"]), (deed.kind, sorted(deed.at))
        if mistake and not mistake["by_eye"]:
            assert failed & set(mistake["found_by"]), (deed.kind, sorted(deed.at))
    assert deeds


def test_the_random_crafts_hold_every_kind_of_mistake():
    """Else the two tests above would prove less than they seem to."""
    kinds = Counter()
    for seed in SEEDS:
        craft = random_craft(seed)
        kinds.update(deed.kind for deed in ModelBench(craft, how_leads_are_made(craft)).deeds())
    assert set(kinds) == KINDS


@pytest.mark.parametrize("seed", SEEDS)
def test_no_row_sends_an_ohmmeter_where_a_pack_can_reach(seed):
    """Safety of packs, common practice: nothing but DC volts on what a pack's own leads reach."""
    bench, sheet = bench_and_sheet(seed)
    for row in sheet["rows"]:
        if row["kind"] == "beep" and row["when"] != "meter":
            dice = random.Random(seed)
            groups = bench.groups(row, bench.right, dice, True)
            for end in (row["from"], *row["joined"], *row["open"]):
                assert bench.poles(groups, bench.touched(end, row, bench.right)) == "", row["words"]
