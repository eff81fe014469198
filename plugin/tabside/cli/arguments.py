"""The words that follow `tabside` on the command line, and their help."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence

from tabside import __version__
from tabside.cli.width import WIDTH
from tabside.errors import TabsideError
from tabside.words.nearest import did_you_mean

# What `export` offers as it is installed, for the help: loading the documents would slow every start.
DOCUMENTS = (
    "bench, board-entry, bom, continuity-sheet, craft-picture, cut-list, end-to-end, findings, first-power, index, "
    "labels, plan, port-list, wire-list"
)
FORMATS = "csv, html, json, markdown, xlsx"
CHAPTERS = (
    "first-craft, drawing, fields, craft-file, board-files, plan, testing, first-power, comparing, kicad, commands, "
    "json, rules, glossary, cannot-see"
)
_SAYS_ITSELF = ("failed", "only", "formats")  # an empty list of these is refused where it is known what there is
_ONE_OBJECT = "print one JSON object and nothing else"


def parsed(words: Sequence[str]) -> argparse.Namespace:
    """What the words ask for; `run` is the name of the function in `commands` that does it.

    Raises: TabsideError for wrong words; SystemExit after the help.
    """
    return command_line(words).parse_args(words)


class _Parser(argparse.ArgumentParser):
    """Wrong words on the command line are one line too."""

    def __init__(self, prog: str, **named: str) -> None:
        # argparse makes a formatter for each argument: to ask for the terminal's width would load a library each time.
        super().__init__(prog, formatter_class=lambda prog: argparse.HelpFormatter(prog, width=WIDTH), **named)  # type: ignore[arg-type]

    def parse_known_args(self, args=None, namespace=None):  # type: ignore[no-untyped-def]
        """Options that are none are refused here, where it is known which there are."""
        parsed_so_far, rest = super().parse_known_args(args, namespace)
        if rest and self._subparsers is None:
            hint = did_you_mean(rest[0], self._option_string_actions, quote="")
            self.error("; ".join(filter(None, (f"unrecognized arguments: {' '.join(rest)}", hint))))
        if self._subparsers is None:
            self._refuse_empty(parsed_so_far)
        return parsed_so_far, rest

    def _refuse_empty(self, parsed_so_far: argparse.Namespace) -> None:
        """A script whose variable was empty did not mean to leave the argument out."""
        for action in self._actions:
            value = getattr(parsed_so_far, action.dest, None)
            given = value if isinstance(value, list) else [value]
            if action.dest not in _SAYS_ITSELF and any(isinstance(value, str) and not value.strip() for value in given):
                name = "/".join(action.option_strings) or str(action.metavar or action.dest)
                needed = action.required or (not action.option_strings and action.nargs is None)
                self.error(f"argument {name} is empty" + ("" if needed else "; give a value, or leave it out"))

    def _check_value(self, action: argparse.Action, value: object) -> None:
        if action.choices is not None and value not in action.choices:
            there = [str(choice) for choice in action.choices]
            hint = did_you_mean(str(value), there, f"there are {', '.join(there)}")
            raise argparse.ArgumentError(action, f'there is no "{value}"; {hint}')

    def _get_value(self, action: argparse.Action, text: str) -> object:
        """A number that is none is told like any other word that is not among the choices."""
        if action.type is int and action.choices is not None and not text.strip().isdecimal():
            self._check_value(action, text)
        return super()._get_value(action, text)

    def error(self, message: str) -> None:  # type: ignore[override]
        raise TabsideError(f"{message}; see `{self.prog} --help`")


def command_line(words: Sequence[str] = ()) -> argparse.ArgumentParser:
    """The parser; of the command that is asked for alone when the first word is one."""
    parser = _Parser(
        prog="tabside",
        description="Check the wiring schematic of a small craft drawn in KiCad; work out what to cut, make and buy.",
        epilog="Tabside checks a drawing, not the parts in your hand: battery and USB unplugged, propellers off, "
        "wheels off the ground; meter before power.",
    )
    parser.add_argument("--version", action="version", version=f"tabside {__version__}")
    commands = parser.add_subparsers(
        dest="command", required=True, metavar="COMMAND", parser_class=_Parser, prog="tabside"
    )
    asked = words[0] if words and words[0] in _COMMANDS else None
    for name, (what, add_arguments) in _COMMANDS.items():
        if asked in (None, name):
            command: argparse.ArgumentParser = commands.add_parser(name, help=what, description=what)
            command.set_defaults(run=name)
            add_arguments(command)
    return parser


def _nets(command: argparse.ArgumentParser) -> None:
    _add_drawing(command)


def _check(command: argparse.ArgumentParser) -> None:
    _add_drawing(command)
    _add_fail_on(command)


def _add_fail_on(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--fail-on",
        choices=("error", "warning", "note", "never"),
        default="error",
        help="exit 1 when a finding is at least this severe (default: error)",
    )


def _plan(command: argparse.ArgumentParser) -> None:
    _add_drawing(command)
    command.add_argument(
        "--cable", metavar="MARK", help="only this cable, for example C3, or one loose wire, for example W12"
    )


def _export(command: argparse.ArgumentParser) -> None:
    _add_drawing(command)
    command.add_argument(
        "--to", type=_folder, metavar="DIR", required=True, help="folder for the documents; made when missing"
    )
    command.add_argument("--only", metavar="LIST", help=f"documents, comma-separated: {DOCUMENTS} (default: all)")
    command.add_argument(
        "--as", dest="formats", metavar="LIST", help=f"formats, comma-separated: {FORMATS} (default: all)"
    )
    _add_fail_on(command)


def _compare(command: argparse.ArgumentParser) -> None:
    side = "a root schematic, REV:path/to/ROOT.kicad_sch of a git revision"
    command.add_argument("old", metavar="OLD", help=f"{side}, or a saved `export --json`")
    command.add_argument("new", metavar="NEW", help=side)
    command.add_argument("--json", action="store_true", help=_ONE_OBJECT)
    _add_reading(command)
    command.add_argument("--to", type=_folder, metavar="DIR", help="folder for the comparison as documents")
    command.add_argument(
        "--as", dest="formats", metavar="LIST", help=f"formats, comma-separated: {FORMATS} (default: all)"
    )


def _diagnose(command: argparse.ArgumentParser) -> None:
    _add_drawing(command)
    rows = "steps or ids of the continuity sheet, separated by commas, as 12,15-17"
    command.add_argument("--failed", metavar="ROWS", required=True, help=f"{rows}: those that failed")
    command.add_argument("--passed", metavar="ROWS", help="those that passed; what is not named was not measured")
    command.add_argument(
        "--sheet", metavar="HASH", help="the drawing's hash as printed on the sheet; another drawing's is refused"
    )


def _families(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "family", metavar="FAMILY", nargs="*", help="show these only, with all that is known and its sources"
    )
    command.add_argument("--json", action="store_true", help=_ONE_OBJECT)


def _watch(command: argparse.ArgumentParser) -> None:
    _add_drawing(command, as_json="print one JSON object a line for each change of the verdict")
    command.add_argument("--to", type=_folder, metavar="DIR", help="folder in which the findings page is kept fresh")


def _explain(command: argparse.ArgumentParser) -> None:
    command.add_argument("rule", metavar="RULE", nargs="?", help="the name of the rule (default: all, in short)")
    command.add_argument("--json", action="store_true", help=_ONE_OBJECT)


def _manual(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "chapter", metavar="CHAPTER", nargs="?", help=f"open it at this chapter or rule: {CHAPTERS}, or a rule's name"
    )
    command.add_argument("--to", metavar="FILE.html", help="write the page there and open nothing")
    command.add_argument("--where", action="store_true", help="print where the page is, and open nothing")
    command.add_argument("--json", action="store_true", help=_ONE_OBJECT)


def _stamp(command: argparse.ArgumentParser) -> None:
    _add_drawing(command)
    command.add_argument("--dry-run", action="store_true", help="show what it would write, and change nothing")


def _boards(command: argparse.ArgumentParser) -> None:
    actions = command.add_subparsers(
        dest="action", required=True, metavar="ACTION", parser_class=_Parser, prog="tabside boards"
    )
    new = actions.add_parser("new", help="begin a board file", description="begin a commented board file")
    new.add_argument(
        "name",
        metavar="NAME",
        help="the board's name, or boards/NAME; makes NAME.board.toml",
    )
    new.add_argument("--force", action="store_true", help="replace a file that is there")
    read = actions.add_parser(
        "read", help="make a board file of a table", description="read pinouts from a CSV, an XLSX or pasted lines"
    )
    read.add_argument("table", metavar="TABLE", help="CSV, XLSX, or a text file with lines such as `1 5V`")
    read.add_argument("--to", metavar="FILE", help="the board file to write, NAME.board.toml")
    read.add_argument("--name", help="the board's name (default: the file's)")
    read.add_argument("--force", action="store_true", help="replace a file that is there")
    show = actions.add_parser(
        "show",
        help="draw every plug back",
        description="draw the plugs as printed on the board and as they lie in the hand",
    )
    show.add_argument("files", metavar="FILE", nargs="*", help="board files")
    show.add_argument("--enter", action="store_true", help="open the page on which a pinout is entered")
    show.add_argument("--to", metavar="PAGE.html", help="also write the page to hold against the maker's picture")
    library = actions.add_parser(
        "library", help="make KiCad parts of board files", description="make KiCad parts: symbols and whole boards"
    )
    library.add_argument("files", metavar="FILE", nargs="+", help="board files")
    library.add_argument("--to", type=_folder, metavar="DIR", help="folder for the parts")
    library.add_argument("--into", metavar="PROJECT", help="a KiCad project: its own library tables will know them")
    library.add_argument(
        "--kicad",
        type=int,
        choices=range(6, 11),
        metavar="6..10",
        help="KiCad version (default: the project's, else 9)",
    )
    for action in (new, read, show, library):
        action.add_argument("--json", action="store_true", help=_ONE_OBJECT)


def _kicad(command: argparse.ArgumentParser) -> None:
    actions = command.add_subparsers(
        dest="action", required=True, metavar="ACTION", parser_class=_Parser, prog="tabside kicad"
    )
    for name, what in (
        ("install", "install the toolbar buttons and the BOM and netlist script into every KiCad found"),
        ("status", "show which KiCad versions are installed and what Tabside has put into them"),
        ("remove", "remove everything that install added"),
    ):
        action = actions.add_parser(name, help=what, description=what)
        action.add_argument("--json", action="store_true", help=_ONE_OBJECT)
        if name != "status":
            action.add_argument("--dry-run", action="store_true", help="show what it would do, and change nothing")
            action.add_argument(
                "--kicad", metavar="VERSION", action="append", help="only this version, for example 9.0"
            )
        if name == "install":
            action.add_argument(
                "--enable-api",
                action="store_true",
                help="switch on what KiCad needs to show the buttons: its API server; in KiCad 10 also a place on the "
                "left toolbar, as narrow screens cut the upper one off",
            )


def _folder(text: str) -> str:
    if not text.strip():
        raise argparse.ArgumentTypeError("name a folder")
    return text


def _add_drawing(command: argparse.ArgumentParser, as_json: str = _ONE_OBJECT) -> None:
    command.add_argument("root", metavar="ROOT.kicad_sch", help="the root schematic")
    command.add_argument("--json", action="store_true", help=as_json)
    _add_reading(command)


def _add_reading(command: argparse.ArgumentParser) -> None:
    """How a drawing is read: every command that reads one takes these."""
    command.add_argument(
        "--kicad",
        type=int,
        choices=(9, 10),
        metavar="9|10",
        help="by which KiCad's rules nets are made (default: by the newest file format among the drawing's files)",
    )
    command.add_argument("--variant", metavar="NAME", help="a design variant of the drawing (KiCad 10)")


_Add = Callable[[argparse.ArgumentParser], None]
# Each command: what it does, and the function that adds its arguments.
_COMMANDS: dict[str, tuple[str, _Add]] = {
    "nets": ("list the nets, exactly as in KiCad's netlist", _nets),
    "check": ("check the wiring and list what is wrong", _check),
    "plan": ("show step by step how each cable is made and tested", _plan),
    "export": ("write the documents: findings, plan, wire list, cut list, BOM, test sheets, port list", _export),
    "compare": ("show what changed between two revisions, and what to do on the bench", _compare),
    "diagnose": ("find the likeliest mistakes behind failed rows of the continuity sheet", _diagnose),
    "families": ("list the connector families that Tabside knows", _families),
    "watch": ("check again at every save, and tell what changed; Ctrl-C ends it", _watch),
    "explain": ("explain what a finding means, why it matters, how to fix it, and its source", _explain),
    "manual": ("open the manual in the browser: one page, without a network", _manual),
    "stamp": ("write cable and wire numbers into the drawing's fields; close the schematic in KiCad first", _stamp),
    "boards": ("begin a board file, read one from a table, draw it back, make KiCad parts of it", _boards),
    "kicad": ("put Tabside into KiCad, or take it out", _kicad),
}
