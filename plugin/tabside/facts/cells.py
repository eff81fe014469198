"""Volts of a pack by its cells in series."""

from __future__ import annotations

import re
from functools import cache

from msgspec import Struct
from msgspec.structs import replace

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
    "NICD": "NIMH",
    "ALKALINE": "ALKALINE",
}
# Kinds of cell that the table does not have: a text with one of them is never read as another kind.
_OTHER_KINDS = frozenset(("LTO", "TITANATE", "NAION", "SODIUM", "SODIUMION", "NIZN", "LICOIN", "LISOCL2", "LIMNO2"))
_SAID = re.compile(
    r"(?:(?P<times>\d{1,2})[X×])?(?:(?P<cells>\d{1,2})S(?:\d{1,2}P)?|(?P<volts>\d{1,3}(?:\.\d+)?)V)", re.IGNORECASE
)
_SIZE = re.compile(r"\d+(?:\.\d+)?(?:m?Ah|Wh|C)", re.IGNORECASE)  # capacity and discharge rate: no volts
# Cells by the volts that a pack is sold by, the usual kind first.  Common practice, no source.
_BY_VOLTS = ("LEAD", "", "LIION", "LIFEPO4", "NIMH", "ALKALINE")
_LEAD_V = (2.0, 4.0, 6.0, 8.0, 12.0)  # of one lead battery; larger ones are some of these in series


class Cell(Struct, frozen=True):
    """Volts of one cell: lowest under load, usual, full; what a source of grade A, B or K says that it reaches."""

    empty_v: float
    nominal_v: float
    full_v: float
    sure_v: float = 0.0


def cell(letters: str = "") -> Cell:
    """The kind of cell that these letters name: "" for the usual lithium cell, "HV" for one charged higher.

    Raises: KeyError when there is none.
    """
    return _cells()[letters.upper()]


def pack_volts(fewest: int, most: int | None = None, letters: str = "") -> Volts:
    """What a pack of so many cells in series reaches: from the fewest cells empty to the most cells full."""
    kind = cell(letters)
    full, sure = (round((most or fewest) * volts, 3) for volts in (kind.full_v, kind.sure_v))
    return Volts(round(fewest * kind.empty_v, 3), full, unsure_above=sure if sure < full else None)


def read_pack(text: str) -> Volts | None:
    """What a battery reaches by the words people use: "6S LiPo", "6S2P", "12V lead", "2x12V", "6S 22.2V 5000mAh".

    None when they are not understood.  Volts that a text names are kept beside the range (`named`).
    """
    text = re.sub(r"(?<=\d),(?=\d+ *V)", ".", text)  # 11,1V
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


class PackTextError(ValueError):
    """A text says cells or volts of a pack, and they cannot be read as one pack; str() says why."""


def read_pack_value(text: str) -> Volts | None:
    """What the Value of a battery symbol says, with makers' names and whatever else people write there.

    None when it says neither cells nor volts ("Battery_Cell", "5000mAh").

    Raises: PackTextError when it says them and means no one pack: "6S 12V".
    """
    found = read_pack(text)
    if found is not None:
        return found
    text = re.sub(r"(?<=\d),(?=\d+ *V)", ".", text)
    spaced = re.sub(r"(?<=[A-Za-z])-(?=\d)|[/;_()|]+", " ", text)
    spaced = re.sub(r"(?<=\d)\s+(?=(?:S|V)(?:DC|\d*P)?(?![A-Za-z]))", "", spaced, flags=re.IGNORECASE)
    spaced = re.sub(r"(?<=\dV)DC\b", "", spaced, flags=re.IGNORECASE)
    words = spaced.replace(",", " ").split()
    said = [word for word in words if _SAID.fullmatch(word)]
    if not said:
        return None
    letters = [re.sub(r"[^A-Z0-9]", "", word.upper()) for word in words]
    strange = [word for word in letters if word in _OTHER_KINDS]
    kinds = [word for word in letters if word in _KINDS and word != "PB"]
    found = None if strange else read_pack(" ".join(dict.fromkeys((*said, *kinds[:1]))))
    if found is None:
        raise PackTextError(f"{strange[0]} is a kind of cell not known" if strange else "no pack is all of that")
    return found


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
        return replace(found, named=times * volts) if found is not None else None
    return None


def _in_range(count: int, letters: str) -> Volts | None:
    return pack_volts(count, letters=letters) if 1 <= count <= CELLS_MAX else None


@cache
def _cells() -> dict[str, Cell]:
    return {
        row["letters"]: Cell(*(float(row[name] or 0) for name in ("empty_v", "nominal_v", "full_v", "sure_v")))
        for row in tables.table_rows("battery_cells")
    }
