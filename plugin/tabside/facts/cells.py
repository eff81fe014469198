"""Volts of a pack by its cells in series."""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from tabside.facts import tables
from tabside.model.roles import Volts

CELLS_MAX = 24
PACK_FORMS = "4S, 6S LiPo, 4S HV, 4S Li-ion, 6S2P, LiFePO4 4S, 12V lead, 2x12V, 14.8V"

_KINDS = {
    "LIPO": "",
    "LIPOLY": "",
    "LITHIUMPOLYMER": "",
    "HV": "HV",
    "LIHV": "HV",
    "LIPOHV": "HV",
    "LIION": "LIION",
    "LITHIUMION": "LIION",
    "LIFEPO4": "LIFEPO4",
    "LIFEPO": "LIFEPO4",
    "LIFE": "LIFEPO4",
    "LFP": "LIFEPO4",
    "LEAD": "LEAD",
    "LEADACID": "LEAD",
    "SLA": "LEAD",
    "AGM": "LEAD",
    "PB": "LEAD",
    "NIMH": "NIMH",
}
_SAID = re.compile(
    r"(?:(?P<times>\d{1,2})[X×])?(?:(?P<cells>\d{1,2})S(?:\d{1,2}P)?|(?P<volts>\d{1,3}(?:\.\d+)?)V)", re.IGNORECASE
)
_SIZE = re.compile(r"\d+(?:\.\d+)?(?:m?Ah|Wh|C)", re.IGNORECASE)  # capacity and discharge rate: no volts
# Cells by the volts that a pack is sold by, the usual kind first.  Common practice, no source.
_BY_VOLTS = ("LEAD", "", "LIION", "LIFEPO4", "NIMH")
_LEAD_V = (2.0, 4.0, 6.0, 8.0, 12.0)  # of one lead battery; larger ones are some of these in series


class Cell(NamedTuple):
    """Volts of one cell: lowest under load, usual, full."""

    empty_v: float
    nominal_v: float
    full_v: float


def cell(letters: str = "") -> Cell:
    """The kind of cell that these letters name: "" for the usual lithium cell, "HV" for one charged higher.

    Raises: KeyError when there is none.
    """
    return _cells()[letters.upper()]


def pack_volts(fewest: int, most: int | None = None, letters: str = "") -> Volts:
    """What a pack of so many cells in series reaches: from the fewest cells empty to the most cells full."""
    kind = cell(letters)
    return Volts(round(fewest * kind.empty_v, 3), round((most or fewest) * kind.full_v, 3))


def read_pack(text: str) -> Volts | None:
    """What a battery reaches by the words people use: "6S LiPo", "6S2P", "12V lead", "2x12V", "6S 22.2V 5000mAh".

    None when they are not understood.  Volts that a text names are kept beside the range (`named`).
    """
    words = re.sub(r"(?<=\d) +(?=[A-Za-z×])", "", " ".join(text.replace(",", " ").split()))
    words = re.sub(r"(?<=[xX×]) +(?=\d)", "", words)
    said: re.Match[str] | None = None
    beside: re.Match[str] | None = None  # the volts beside the cells: "6S 22.2V"
    letters: list[str] = []
    for word in words.split(" "):
        found = _SAID.fullmatch(word)
        if _SIZE.fullmatch(word):
            continue
        if found is None:
            letters.append(word)
        elif said is None:
            said = found
        elif beside is not None or bool(said["cells"]) == bool(found["cells"]):
            return None
        else:
            said, beside = (said, found) if said["cells"] else (found, said)
    kind_text = re.sub(r"[^A-Z0-9]", "", "".join(letters).upper())
    kind_text = kind_text.removesuffix("BATTERY").removesuffix("PACK")
    if said is None or (kind_text and kind_text not in _KINDS):
        return None
    kind = _KINDS[kind_text] if kind_text else None
    times = int(said["times"] or 1)
    if said["cells"]:
        reach = _in_range(times * int(said["cells"]), kind or "")
        return None if reach is not None and beside is not None and not _within(reach, beside) else reach
    return _by_volts(float(said["volts"]), times, kind)


def _within(reach: Volts, beside: re.Match[str]) -> bool:
    """Whether the volts that stand beside the cells are the pack's."""
    return reach.low <= int(beside["times"] or 1) * float(beside["volts"]) <= reach.high


def _by_volts(volts: float, times: int, kind: str | None) -> Volts | None:
    for letters in _BY_VOLTS if kind is None else (kind,):
        count = volts / cell(letters).nominal_v
        if abs(count - round(count)) > 0.02 * max(1.0, count) / 4 or round(count) < 1:
            continue
        if kind is None and letters == "LEAD" and not (volts in _LEAD_V[2:] or volts % 12 == 0):
            continue
        found = _in_range(times * round(count), letters)
        return Volts(found.low, found.high, named=times * volts) if found is not None else None
    return None


def _in_range(count: int, letters: str) -> Volts | None:
    return pack_volts(count, letters=letters) if 1 <= count <= CELLS_MAX else None


@cache
def _cells() -> dict[str, Cell]:
    return {
        row["letters"]: Cell(float(row["empty_v"]), float(row["nominal_v"]), float(row["full_v"]))
        for row in tables.table_rows("battery_cells")
    }
