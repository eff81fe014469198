"""Which way round a plug's row looks: computed from how the plug sits in space and how it is held.

Axes of face `printed`, looking at the side of the board on which the receptacle sits: x to the right, y up in the
picture (away from the reader), z out of the board towards the eye.  The row of contacts lies along x.
"""

from __future__ import annotations

Vector = tuple[int, int, int]

RIGHT: Vector = (1, 0, 0)
AWAY_FROM_READER: Vector = (0, 1, 0)
OUT_OF_BOARD: Vector = (0, 0, 1)

# Side entry: the opening lies towards the reader, so the plug goes in away from him.  Top entry: down into the board.
INSERTION: dict[str, Vector] = {"side": AWAY_FROM_READER, "top": (0, 0, -1)}
RELEASE_SIDE: dict[tuple[str, str], Vector] = {
    ("side", "away"): OUT_OF_BOARD,
    ("side", "board"): (0, 0, -1),
    ("top", "near"): (0, -1, 0),
    ("top", "far"): AWAY_FROM_READER,
}


def tabs_reversed(entry: str, tabs: str) -> bool:
    """Whether face `tabs` shows the row in the other order than face `printed`.

    Face `tabs`: the plug in the hand, its release side towards the person, its leads hanging down.

    Raises: KeyError for an entry and a release side that do not go together.
    """
    into, release = INSERTION[entry], RELEASE_SIDE[entry, tabs]
    # The leads leave against the way in and hang down, so the way in is up in the picture.
    return _runs_left(up=into, towards_eye=release)


def mating_reversed(entry: str, tabs: str) -> bool:
    """The same for face `mating`: looking into the plug's open end, release side up."""
    into, release = INSERTION[entry], RELEASE_SIDE[entry, tabs]
    return _runs_left(up=release, towards_eye=into)


def _runs_left(*, up: Vector, towards_eye: Vector) -> bool:
    """Whether the row, which runs to the right on face `printed`, runs to the left in this picture."""
    return _dot(_cross(up, towards_eye), RIGHT) < 0


def _cross(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _dot(a: Vector, b: Vector) -> int:
    return sum(p * q for p, q in zip(a, b, strict=True))
