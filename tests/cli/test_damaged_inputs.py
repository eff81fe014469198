"""A short run of damaged inputs; `python tests/kits/fuzz_inputs.py` is the long one."""

from __future__ import annotations

import pytest

from fuzz_inputs import run


@pytest.mark.parametrize("start", range(1, 301, 50))
def test_damaged_files_give_a_clear_line_and_no_half_written_folder(start):
    wrong = list(run(range(start, start + 50)))
    assert not wrong, "\n".join(wrong)
