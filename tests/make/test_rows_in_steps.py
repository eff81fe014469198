"""Every row of the continuity sheet that belongs to a cable stands in one step of its sheet, and in one only."""

from collections import Counter

import pytest

from dice.random_harness import random_craft
from tabside.documents.build import craft_build
from tabside.prove.measurement import When
from tabside.rules import check_craft

_NOT_OF_A_CABLE = (When.METER, When.PART, When.CRAFT)


@pytest.mark.parametrize("seed", range(1, 21))
def test_each_row_is_done_once(seed):
    craft = random_craft(seed)
    build = craft_build(craft, check_craft(craft))
    done = Counter(row.id for cable in build.plan.cables for step in cable.steps for row in step.rows)
    stopped = {mark for cable in build.plan.cables if cable.stopped for mark in cable.leads}
    for row in build.proof.rows:
        if row.when not in _NOT_OF_A_CABLE and row.leads and not stopped & set(row.leads):
            assert done[row.id] == 1, row.words
