"""What a name in a drawing can do to a terminal.  Control functions: ECMA-48; marks of direction: Unicode Annex 9."""

from unicodedata import category

import pytest

from tabside.words.visible_text import visible


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        pytest.param("\x1b[31mred", "\\u001b[31mred", id="ECMA-48 CSI, colour"),
        pytest.param("\x9b2J", "\\u009b2J", id="ECMA-48 C1 CSI, clear the screen"),
        pytest.param("a\rb\x08", "a\\u000db\\u0008", id="back over what was printed"),
        pytest.param("\u202eabc\u202c", "\\u202eabc\\u202c", id="UAX 9 override"),
        pytest.param("\u2066x\u2069", "\\u2066x\\u2069", id="UAX 9 isolate"),
    ],
)
def test_a_name_cannot_rewrite_the_page(text, shown):
    assert visible(text) == shown


@pytest.mark.parametrize("text", ["pilot/J1:3", "Vorwärts 5 µH – Ω", "前 後", "<b>&amp;", "שלום"])
def test_ordinary_names_stay(text):
    assert visible(text) == text


@pytest.mark.parametrize(
    "sign", "\u200b\u200c\u200d\u2060\ufeff\u00ad\u3164\ufe0f\u2800\u202a\ud800\U000e0041\U000e0101"
)
def test_signs_without_a_width_tags_and_fillers_are_written_out(sign):
    """Two names that look alike and are two would hide a wrong wire.  Unicode's Default_Ignorable_Code_Point."""
    shown = visible(f"J{sign}1")
    assert shown.isascii() and shown != "J1" and f"{ord(sign):x}" in shown


def test_every_sign_that_unicode_gives_no_shape_is_written_out():
    """The Unicode database that Python carries is the judge: controls, formats, surrogates, separators of lines."""
    shown = {
        n for n in range(0x110000) if category(chr(n)) in {"Cc", "Cf", "Cs", "Zl", "Zp"} and visible(chr(n)) == chr(n)
    }
    # Signs of numbers and verses in Arabic, Syriac, Kaithi and Egyptian: they enclose what follows, and are seen.
    others = {n for n in shown if not 0x600 <= n <= 0x8E2 and n not in (0x110BD, 0x110CD)}
    assert others <= set(range(0x13430, 0x13440))
