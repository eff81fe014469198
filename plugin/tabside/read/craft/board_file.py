"""The board file `<name>.board.toml`: what a maker's manual says of one board, typed once.

Read with a schema, bounded: a wrong key names its path and the nearest right one, a wrong value its path and what was
expected.  The words are those of the schematic's fields.
"""

import hashlib
import os
from typing import Annotated

import msgspec

from tabside.errors import TabsideError
from tabside.facts import ports
from tabside.model.board import BoardFile, BoardPlug
from tabside.model.bounds import Leads
from tabside.model.stated_limits import HIGHEST_V
from tabside.ordinary_file import read_ordinary
from tabside.read.craft.names import family
from tabside.read.craft.toml import KeysAt, converted, tree_of
from tabside.read.missing_file import must_be_there
from tabside.words.nearest import did_you_mean

LARGEST_BOARD_FILE = 1024 * 1024
MOST_PLUGS, MOST_WAYS, LONGEST = 200, 200, 400
ENDING = ".board.toml"

Text = Annotated[str, msgspec.Meta(min_length=1, max_length=LONGEST)]
Number = Annotated[float, msgspec.Meta(gt=0, le=HIGHEST_V)]
Signals = Annotated[list[Annotated[str, msgspec.Meta(max_length=LONGEST)]], msgspec.Meta(max_length=MOST_WAYS)]


class _BoardTable(msgspec.Struct, forbid_unknown_fields=True):
    name: Text | None = None
    title: Annotated[str, msgspec.Meta(max_length=LONGEST)] = ""
    source: Annotated[str, msgspec.Meta(max_length=LONGEST)] = ""
    held: bool = False
    ground_point: Text | None = None
    picture: Text | None = None
    drawn_in: Text | None = None


class _PlugTable(msgspec.Struct, forbid_unknown_fields=True):
    name: Text
    kind: Text | None = None
    family: Text | None = None
    signals: Annotated[str, msgspec.Meta(max_length=MOST_WAYS * 50)] | Signals | None = None
    like: Text | None = None
    reference: Text | None = None
    seen_from: Text | None = None
    contact_1: Text | None = None
    entry: Text | None = None
    tabs: Text | None = None
    gives: Text | None = None
    takes: Text | None = None
    either: Text | None = None
    level: Text | Number | None = None
    level_max: Text | Number | None = None
    leads_max: Leads | None = None
    isolated: bool = False


class _BoardFile(msgspec.Struct, forbid_unknown_fields=True):
    board: _BoardTable
    plugs: Annotated[list[_PlugTable], msgspec.Meta(min_length=1, max_length=MOST_PLUGS)]


SCHEMA: type[msgspec.Struct] = _BoardFile
_KEYS_AT: KeysAt = {"": _BoardFile, "board": _BoardTable, "plugs[...]": _PlugTable}


def read_board_file(path: str | os.PathLike[str]) -> BoardFile:
    """Read a board file.

    Raises: TabsideError with file and line (TOML) or key (schema) when it is damaged.
    """
    folder, name = os.path.split(path)
    must_be_there(os.fspath(path), name)
    return board_from_text(read_ordinary(path, name, LARGEST_BOARD_FILE), name, folder or os.curdir)


def board_from_text(raw: bytes, name: str, folder: str = "") -> BoardFile:
    """The board that the bytes of a board file hold; `name` stands in messages and is the board's when it has none."""
    parsed = converted(tree_of(raw, name), _BoardFile, _KEYS_AT, name)
    board = parsed.board
    seen: dict[str, int] = {}
    for k, plug in enumerate(parsed.plugs):
        first = seen.setdefault(plug.name.strip().casefold(), k)
        if first != k:
            raise TabsideError(f'plugs[{k}].name: "{plug.name}" is the name of plugs[{first}], too', file=name)
    return BoardFile(
        name=(board.name or name.removesuffix(ENDING)).strip(),
        plugs=tuple(_plug(plug, f"plugs[{k}]", board, name) for k, plug in enumerate(parsed.plugs)),
        file=name,
        title=board.title,
        source=board.source,
        held=board.held,
        ground_point=board.ground_point,
        picture=board.picture,
        drawn_in=board.drawn_in,
        file_hash=hashlib.sha256(raw).hexdigest(),
        folder=folder,
    )


def _plug(plug: _PlugTable, key: str, board: _BoardTable, name: str) -> BoardPlug:
    port = _port(plug, key, name)
    signals = _signals(plug, key, name) if port is None else ", ".join(port.signals)
    _one_source_of_signals(plug, key, board, name)
    family_id = port.family if port is not None else None
    if plug.family:
        family_id = family(plug.family, f"{key}.family", name)
    stated = {
        "Kind": plug.kind,
        "Family": plug.family or family_id,
        "Signals": signals,
        "Seen from": plug.seen_from,
        "Contact 1": plug.contact_1,
        "Entry": plug.entry,
        "Tabs": plug.tabs,
        "Gives": plug.gives or (port.gives if port else None),
        "Takes": plug.takes or (port.takes if port else None),
        "Either": plug.either,
        "Level": _text(plug.level) or (port.level if port else None),
        "Level max": _text(plug.level_max),
        "Leads max": None if plug.leads_max is None else str(plug.leads_max),
        "Isolated": "yes" if plug.isolated else None,
    }
    return BoardPlug(
        name=plug.name.strip(),
        key=key,
        fields={field: text for field, text in stated.items() if text},
        ways=_ways(signals),
        reference=plug.reference,
        like=port.id if port else None,
    )


def _port(plug: _PlugTable, key: str, name: str) -> ports.Port | None:
    if plug.like is None:
        return None
    found = ports.port(plug.like)
    if found is None:
        hint = did_you_mean(plug.like, ports.port_ids(), f"there are {', '.join(ports.port_ids())}", alike=0.4)
        raise TabsideError(f'{key}.like: "{plug.like}" is no port of the guideline; {hint}', file=name)
    if plug.seen_from is not None:
        raise TabsideError(f"{key}.seen_from: `like` goes by contact number; leave seen_from out", file=name)
    return found


def _one_source_of_signals(plug: _PlugTable, key: str, board: _BoardTable, name: str) -> None:
    """Exactly one of `signals`, `like` and the own board's `reference` says what the contacts are."""
    said = [word for word in ("signals", "like", "reference") if getattr(plug, word) is not None]
    if len(said) > 1:
        raise TabsideError(f'{key} ("{plug.name}") has `{said[0]}` and `{said[1]}`; keep one', file=name)
    if not said:
        what = "`reference`, its connector in the board's project" if board.drawn_in else "`signals`, or `like`"
        raise TabsideError(f'{key} ("{plug.name}"): what its contacts are is missing; add {what}', file=name)
    if plug.reference is not None and board.drawn_in is None:
        raise TabsideError(f"{key}.reference: goes with `drawn_in` under [board]; add it, or write signals", file=name)


def _signals(plug: _PlugTable, key: str, name: str) -> str:
    """The names as one text with commas, so that a list may have names with blanks in them."""
    if plug.signals is None:
        return ""
    if isinstance(plug.signals, str):
        if not plug.signals.strip():
            raise TabsideError(f"{key}.signals: is empty; write the names from contact 1 up", file=name)
        return plug.signals
    if not any(text.strip() for text in plug.signals):
        raise TabsideError(f"{key}.signals: is empty; write the names from contact 1 up", file=name)
    for text in plug.signals:
        if "," in text:
            raise TabsideError(f'{key}.signals: "{text}" has a comma in it; write it without', file=name)
    return ", ".join(text.strip() for text in plug.signals) + ("," if len(plug.signals) == 1 else "")


def _ways(signals: str) -> int:
    if "," in signals:
        return len(signals.split(",")) - (not signals.rsplit(",", 1)[1].strip())
    return len(signals.split())


def _text(value: str | float | None) -> str | None:
    return None if value is None else f"{value:g}" if isinstance(value, (int, float)) else value
