"""What the manual does not write down a second time: keys, rules, words, frames and commands, from the code itself."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterator, Mapping
from itertools import groupby

from markupsafe import Markup

from tabside.cli.arguments import command_line
from tabside.documents.explanation import Explanation, explanations
from tabside.make.sheets.cable_plan import CableEnd, Cavity
from tabside.read.craft import board_file, file, meanings
from tabside.read.craft.schema_keys import Key, keys_of
from tabside.wiring.faces import tabs_reversed
from tabside.words.glossary import GLOSSARY
from tabside_exporters.formats.page_templates import rendered_part
from tabside_exporters.pages.plug_drawing import plug_of_board

_PARTS = "manual/manual_parts.html.j2"
_OF_KITS = "stock.kits[]."  # a kit's entries take the keys of those beside it


def _keys(keys: tuple[Key, ...], said: Mapping[str, str]) -> Markup:
    """The keys, one table for each table of the file."""
    shown = [key for key in keys if not key.path.startswith(_OF_KITS) or key.path.count("[]") == 1]
    tables = [
        {
            "name": _as_written(name),
            "rows": [
                {
                    "key": key.path.rpartition(".")[2],
                    "takes": key.takes,
                    "usual": key.usual,
                    "meaning": said[key.path],
                }
                for key in rows
            ],
        }
        for name, rows in groupby(shown, key=lambda key: key.path.rpartition(".")[0])
    ]
    return rendered_part(_PARTS, tables=tables)


def _as_written(table: str) -> str:
    """`stock.cables[]` as it stands in the file: `[[stock.cables]]`."""
    return f"[[{table.removesuffix('[]')}]]" if table.endswith("[]") else f"[{table}]"


def _rules() -> Markup:
    seen: set[str] = set()
    return rendered_part(
        _PARTS, rules=[_rule(explanation, seen) for explanation in sorted(explanations(), key=lambda e: e.rules)]
    )


def _rule(explanation: Explanation, seen: set[str]) -> dict[str, object]:
    said = (
        ("Example", explanation.example),
        ("Fix", explanation.fix),
        ("Accept", explanation.accept),
        *explanation.cases,
        ("Source", explanation.source),
    )
    names = [(name, f"rule-{name}" if name not in seen else "") for name in explanation.rules]
    seen.update(explanation.rules)
    return {
        "names": names,
        "severity": explanation.severity.value,
        "what": explanation.what,
        "why": explanation.why,
        "said": [(label, words) for label, words in said if words],
    }


_FRAMES = (
    ("side", "board", "Side entry, locking tab to the board"),
    ("side", "away", "Side entry, locking tab away from the board"),
    ("top", "near", "Top entry, locking tab at the near edge"),
    ("top", "far", "Top entry, locking tab at the far edge"),
)
_EXAMPLE = ("5V", "TX", "RX", "GND")


def _frames() -> Markup:
    """A plug with contact 1 at the left of the board, in each way that it can lie."""
    return rendered_part(_PARTS, frames=list(_each_frame()))


def _each_frame() -> Iterator[dict[str, object]]:
    cavities = [Cavity(str(number), None, signal, None) for number, signal in enumerate(_EXAMPLE, start=1)]
    for entry, tabs, title in _FRAMES:
        in_hand = "right" if tabs_reversed(entry, tabs) else "left"
        end = CableEnd("", "TELEM", "jst_gh", len(cavities), True, entry, tabs, "left", in_hand)
        turned = "the row is turned round" if in_hand == "right" else "the row stays as it is"
        words = f"Entry {entry}, Tabs {tabs}, Contact 1 left. In the hand {turned}: contact 1 is at the {in_hand}."
        yield {"title": title, "drawing": Markup(plug_of_board("TELEM", cavities, end)), "words": words}


def _words() -> Markup:
    return rendered_part(_PARTS, words=GLOSSARY)


def _commands() -> Markup:
    return rendered_part(_PARTS, commands=list(_each_command(command_line(), "tabside")))


def _each_command(parser: argparse.ArgumentParser, name: str) -> Iterator[dict[str, object]]:
    inner = [action for action in parser._actions if isinstance(action, argparse._SubParsersAction)]
    for below in inner:
        for word, command in below.choices.items():
            yield from _each_command(command, f"{name} {word}")
    if not inner:
        shown = [action for action in parser._actions if not isinstance(action, argparse._HelpAction)]
        places = [_place(action) for action in shown if not action.option_strings]
        yield {
            "id": name.replace(" ", "-"),
            "usage": " ".join([name, *places]),
            "what": (parser.description or "").strip(),
            "options": [(_option(action), action.help or "") for action in shown if action.option_strings],
        }


def _place(action: argparse.Action) -> str:
    name = str(action.metavar or action.dest)
    if action.nargs in ("?", "*"):
        return f"[{name}]"
    return f"{name}…" if action.nargs == "+" else name


def _option(action: argparse.Action) -> str:
    takes = "" if action.nargs == 0 else f" {action.metavar or '|'.join(map(str, action.choices or [action.dest]))}"
    return action.option_strings[0] + takes


INSERTS: Mapping[str, Callable[[], Markup]] = {
    "craft-keys": lambda: _keys(keys_of(file.SCHEMA), meanings.CRAFT),
    "board-keys": lambda: _keys(keys_of(board_file.SCHEMA), meanings.BOARD),
    "rules": _rules,
    "frames": _frames,
    "words": _words,
    "commands": _commands,
}
