"""What a name in a drawing can do to a terminal.  Control functions: ECMA-48; marks of direction: Unicode Annex 9."""

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
