"""The buttons in KiCad's real schematic editor: installed, pressed, and the documents found.

One press of each here; `press_the_button.py --times 10` measures how often they work.
"""

from __future__ import annotations

import os

import pytest

import press_the_button as bench

pytestmark = pytest.mark.window


@pytest.mark.parametrize("action", ["check", "documents", "compare", "door"])
@pytest.mark.parametrize(
    "kicad", [pytest.param("9", marks=pytest.mark.kicad), pytest.param("10", marks=pytest.mark.kicad("cli10"))]
)
def test_what_a_button_promises_is_there_after_it_was_pressed(kicad, action, tmp_path_factory):
    at = bench.SCREENS[kicad]
    missing = bench.missing_programs(at)
    if missing:
        reason = f"not installed: {', '.join(missing)}"
        pytest.fail(reason) if os.environ.get("TABSIDE_NEED_KICAD") == "1" else pytest.skip(reason)
    # The folder's name must not hold ours: no trace of that is searched for afterwards.
    bench.one_run(tmp_path_factory.mktemp("home"), action, at=at)
