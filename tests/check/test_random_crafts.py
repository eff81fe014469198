"""Every fault of the pencil is found, and no sound craft is blamed.

Expectations follow from the roles that makers print and from how the fault was made; common practice, no source.
"""

from __future__ import annotations

import pytest

from random_crafts import missed_and_false

SEEDS = range(1, 121)


@pytest.mark.parametrize("start", SEEDS[::20])
def test_each_fault_is_found_and_no_sound_craft_is_blamed(start):
    wrong = [line for seed in range(start, start + 20) for line in missed_and_false(seed)]
    assert not wrong, f"seeds {start} to {start + 19}:\n" + "\n".join(wrong)
