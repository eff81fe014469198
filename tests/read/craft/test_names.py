"""How the craft file names contacts."""

from __future__ import annotations

import pytest

from tabside.errors import TabsideError
from tabside.read.craft.names import contact


@pytest.mark.parametrize("text", ["pilot/J1:2", "pilot/J1:2 (TX)", "pilot/J1:2 (TX (OUT))", " pilot/J1:2 (5V) "])
def test_a_contact_as_it_is_written_and_as_findings_print_it(text):
    named = contact(text, "at", "boat.craft.toml")
    assert (named.board, named.termination, named.contact) == ("pilot", "J1", "2")


def test_a_part_that_is_a_board_by_itself():
    named = contact("BT1:1 (BAT+)", "at", "boat.craft.toml")
    assert (named.board, named.termination, named.contact) == ("BT1", "BT1", "1")


def test_a_text_that_only_begins_as_findings_do_is_refused_at_once():
    """It takes half a minute where each beginning is followed to the end."""
    with pytest.raises(TabsideError, match="is no contact"):
        contact(":a (" * 150_000, "at", "boat.craft.toml")
