"""Each run gives the same answer: sets have another order in every process, and nothing may hang on it.

Logic, no source outside: two processes with other hash seeds, over edits in which the order of a set once showed.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

KITS = Path(__file__).parents[1] / "kits"
ANSWERS = """
    import json
    import random
    from crafts.craft_kit import craft, pads, plug, splice
    from crafts.pack_crafts import changed, craft_of, some_packs
    from dice.random_edits import draft, edited
    from tabside.compare import compare_crafts
    from tabside.compare.comparison_json import comparison_json

    def told(old, new):
        for a, b in ((old, new), (new, old)):
            print(json.dumps(comparison_json(compare_crafts(a, b))))

    before = draft(902)
    told(before.craft(), edited(before, "board goes", 902).craft())
    ends = [pads(f"J{n}", "V", board=f"b{n}", signals="5V") for n in range(1, 9)]
    told(craft(*ends, splice("SP1", "V")), craft(*ends[:4], splice("SP1", "V")))
    names = "hub", "gps"
    told(
        craft(*(plug(f"J{n}", "A B GND", board=name, signals="X1, X2, GND") for n, name in enumerate(names, 1))),
        craft(*(plug(f"J{n}", "B A GND", board=f"{name} 2", signals="X2, X1, GND") for n, name in enumerate(names, 1))),
    )
    dice = random.Random(38)
    packs = some_packs(dice)
    told(craft_of(packs), craft_of(changed(packs, dice)))
"""


def answers(seed: int) -> str:
    script = "\n".join(line.removeprefix("    ") for line in ANSWERS.splitlines())
    env = {
        **os.environ,
        "PYTHONHASHSEED": str(seed),
        "PYTHONPATH": os.pathsep.join([str(KITS), *filter(None, sys.path)]),
    }
    done = subprocess.run([sys.executable, "-c", script], env=env, capture_output=True, text=True, check=True)
    return done.stdout


def test_the_order_of_sets_changes_no_answer():
    first = answers(1)
    assert first.count("tabside/compare/1") == 8
    assert [answers(seed) for seed in (0, 2)] == [first, first]
