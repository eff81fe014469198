"""Lines on terminals of several widths: a pseudo terminal of the system is the judge."""

import os
import subprocess
from pathlib import Path

import pytest

from programs.tabside_command import TABSIDE

pty = pytest.importorskip("pty")  # not on every system
fcntl, struct, termios = (pytest.importorskip(name) for name in ("fcntl", "struct", "termios"))

BOAT = Path(__file__).parents[2] / "fixtures/survey_boat"


def printed(columns, *words):
    """What a terminal of so many columns gets."""
    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 40, columns, 0, 0))
    command = [*TABSIDE, *map(str, words)]
    with subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=theirs, stderr=theirs, close_fds=True) as running:
        os.close(theirs)
        told = b""
        while True:
            try:
                some = os.read(ours, 65536)
            except OSError:  # the other end is closed
                break
            if not some:
                break
            told += some
        running.wait(timeout=60)
    os.close(ours)
    return told.decode().replace("\r\n", "\n")


@pytest.mark.parametrize("columns", [60, 120])
@pytest.mark.parametrize(
    "words",
    [
        ("check", BOAT / "rev_a/survey_boat.kicad_sch"),
        ("plan", BOAT / "rev_b/survey_boat.kicad_sch"),
        ("compare", BOAT / "rev_a/survey_boat.kicad_sch", BOAT / "rev_b/survey_boat.kicad_sch"),
        ("explain", "mirrored"),
        ("export", "--help"),
    ],
    ids=lambda words: words[0],
)
def test_no_line_is_wider_than_the_terminal_nor_than_80_and_none_has_colours(words, columns):
    told = printed(columns, *words)
    assert "\x1b" not in told
    assert max(map(len, told.splitlines())) <= min(columns, 80)


def test_a_terminal_that_does_not_say_its_width_gets_the_usual_one():
    assert 70 < max(map(len, printed(0, "explain", "mirrored").splitlines())) <= 80
