"""Which way round a plug's row looks: computed from how the plug sits in space and how it is held.

Axes of face `printed`, looking at the side of the board on which the receptacle sits: x to the right, y up in the
picture (away from the reader), z out of the board towards the eye.  The row of contacts lies along x.
"""

from __future__ import annotations

from tabside.facts import families
from tabside.model.craft import Kind, Termination

Vector = tuple[int, int, int]

OTHER_SIDE = {"left": "right", "right": "left"}
RIGHT: Vector = (1, 0, 0)
AWAY_FROM_READER: Vector = (0, 1, 0)
OUT_OF_BOARD: Vector = (0, 0, 1)

# Side entry: the opening lies towards the reader, so the plug goes in away from there.  Top entry: down into the board.
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


def contact_1_on_tabs(entry: str | None, tabs: str | None, contact_1: str | None) -> str | None:
    """ "left" or "right" on face `tabs`; None when one of the three is not known."""
    if entry is None or tabs is None or contact_1 not in OTHER_SIDE or (entry, tabs) not in RELEASE_SIDE:
        return None
    return OTHER_SIDE[contact_1] if tabs_reversed(entry, tabs) else contact_1


def mating_reversed(entry: str, tabs: str) -> bool:
    """The same for face `mating`: looking into the plug's open end, release side up."""
    into, release = INSERTION[entry], RELEASE_SIDE[entry, tabs]
    return _runs_left(up=release, towards_eye=into)


# Where the opening points in a maker's picture of the board; "" is face `printed`, the opening towards the reader.
OPENING: dict[str, Vector] = {
    "": (0, -1, 0),
    "opening-up": AWAY_FROM_READER,
    "opening-left": (-1, 0, 0),
    "opening-right": RIGHT,
}


def picture_reversed(opening: str, see_through: bool) -> bool:
    """Whether a picture, read from left to right or from the top down, shows the row the other way than `printed`.

    `see_through`: the board is drawn as if seen through it from its other side, which is a mirror image.

    Raises: KeyError for no such picture.
    """
    # Looking at the receptacle's side of the board, the row runs to the right of whoever looks in at the opening:
    # at right angles to the way in, which points against the opening; in a mirror image to the left.
    x, y, _ = OPENING[opening]
    row = (-y, x)  # the opening (0, -1) has the row (1, 0)
    if see_through:
        row = (-row[0], -row[1])
    return row[0] < 0 or row[1] > 0  # y is up: a row that runs upwards is read from its far end


def _runs_left(*, up: Vector, towards_eye: Vector) -> bool:
    """Whether the row, which runs to the right on face `printed`, runs to the left in this picture."""
    return _dot(_cross(up, towards_eye), RIGHT) < 0


def _cross(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _dot(a: Vector, b: Vector) -> int:
    return sum(p * q for p, q in zip(a, b, strict=True))


def is_unknown(termination: Termination) -> bool:
    """Whether one cannot tell in which order the plug of a receptacle shows its cavities in the hand.

    Plugs that are soldered or moulded show none, and none is asked for.
    """
    return (
        termination.kind is Kind.RECEPTACLE
        and None in (termination.entry, termination.tabs, termination.contact_1)
        and (termination.family is None or families.family(termination.family).has_faces)
    )
