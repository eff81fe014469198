"""Small files that stand for millions of pins: refused at once.  The bound is common practice, no source."""

import contextlib
import time

import pytest

from tabside.errors import TabsideError
from tabside.read import read_drawing

HEAD = '(kicad_sch (version {version}) (generator "eeschema") (uuid "1") (paper "A4") (lib_symbols {library}) {placed})'
PART = '(symbol (lib_id "a:b") (at {x} 0 0) (unit 1) (uuid "u{x}") (property "Reference" "J{x}" (at 0 0 0)))'


def pin(number, y=0):
    return f'(pin passive line (at 0 {y} 0) (length 1) (name "P") (number "{number}"))'


def write(path, pins, parts, version=20250114):
    library = f'(symbol "a:b" (symbol "b_1_1" {pins}))'
    placed = "".join(PART.format(x=10 * k) for k in range(parts))
    path.write_text(HEAD.format(version=version, library=library, placed=placed))
    return path


@pytest.mark.parametrize(
    ("pins", "parts", "version"),
    [
        pytest.param("".join(pin(n, n) for n in range(2000)), 2000, 20250114, id="many parts of many pins"),
        pytest.param("".join(pin(f"[{n}000-{n}999]") for n in range(1, 999)), 1, 20260306, id="stacked numbers"),
    ],
)
def test_millions_of_pins_are_refused_at_once(tmp_path, pins, parts, version):
    path = write(tmp_path / "x.kicad_sch", pins, parts, version)
    started = time.process_time()
    with pytest.raises(TabsideError, match="more than 100000 pins") as error:
        read_drawing(path)
    assert path.stat().st_size < 10**6 and time.process_time() - started < 10 and str(path) in str(error.value)


def test_thousands_of_empty_strings_in_a_damaged_file_take_no_time(tmp_path):
    path = tmp_path / "x.kicad_sch"
    path.write_text("(kicad_sch (version 20250114) " + '""' * 400_000 + ")")
    started = time.process_time()
    with contextlib.suppress(TabsideError):
        read_drawing(path)
    assert time.process_time() - started < 10
