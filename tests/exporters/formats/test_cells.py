import pytest

from tabside_exporters.formats.cells import clean


@pytest.mark.parametrize("sign", ["\x00", "\x1b", "\x85", "\u2028", "\u202e", "\u2067", "\ud800"])
def test_a_sign_without_a_shape_of_its_own_is_written_out(sign):
    assert clean(f"A{sign}B") == f"A\\u{ord(sign):04x}B"


@pytest.mark.parametrize("text", ["tab\there", "line\nfeed", "Ω µ 線", "\U0001f6a4", "a\u00a0b"])
def test_a_name_in_any_script_stays_as_it_is(text):
    assert clean(text) == text
