"""The command `tabside`: a thin shell that opens files, prints, and sets the exit status.

Exit status: 0 nothing at or above `--fail-on`, 1 some, 2 could not run.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from contextlib import suppress

from tabside import __version__
from tabside.errors import TabsideError
from tabside.interruption import journal_beside, parts_journal_beside
from tabside.words.visible_text import visible

# What `export` offers as it is installed, for the help: loading the documents would slow every start.
DOCUMENTS = (
    "bench, bom, continuity-sheet, craft-picture, cut-list, end-to-end, findings, first-power, index, labels, plan, "
    "port-list, wire-list"
)
FORMATS = "csv, html, json, markdown, xlsx"

EXIT_CLEAN, EXIT_FOUND, EXIT_CANNOT_RUN = 0, 1, 2


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; returns the exit status.

    Raises: KeyboardInterrupt, which `starting` tells.
    """
    no_output = sys.stdout is None
    _open_what_is_closed()
    words = sys.argv[1:] if argv is None else list(argv)
    arguments = _parser().parse_args(words)
    from tabside.cli import commands

    try:
        _undo_what_broke_off(arguments)
        status = getattr(commands, arguments.run)(arguments)
        sys.stdout.flush()
    except TabsideError as error:
        return _told(error, as_json=arguments.json)
    except BrokenPipeError:
        # The reader of our output has gone (`| head`): nothing to say.
        _print_no_more()
        return EXIT_CANNOT_RUN
    except OSError as error:
        _print_no_more()
        return _told(TabsideError(f"cannot print: {(error.strerror or str(error)).lower()}"), as_json=False)
    if no_output:
        return _told(TabsideError("cannot print: standard output is closed"), as_json=False)
    return int(status)


def _undo_what_broke_off(arguments: argparse.Namespace) -> None:
    """What was killed between two files, a stamping or parts of boards, is undone before anything reads the drawing."""
    for name in ("root", "old", "new"):
        root = getattr(arguments, name, None)
        if isinstance(root, str) and os.path.lexists(journal := journal_beside(root)):
            from pathlib import Path

            from tabside.files_together import undo_broken_off
            from tabside.read.kicad.lock import is_open_in_kicad

            if is_open_in_kicad(root):
                raise TabsideError(
                    "writing marks into this drawing was broken off; close it in KiCad without saving and try again",
                    file=root,
                )
            _warn(f"writing marks {undo_broken_off(Path(journal))}")
        if isinstance(root, str) and os.path.lexists(parts_journal_beside(root)):
            from pathlib import Path

            from tabside.boards.parts.writing import undo_broken_off as undo_parts

            _warn(str(undo_parts(Path(root).parent)))


def _warn(text: str) -> None:
    print(f"tabside: warning: {visible(text)}", file=sys.stderr)


def _told(error: TabsideError, *, as_json: bool) -> int:
    with suppress(OSError):
        print(f"tabside: {visible(str(error))}", file=sys.stderr)
        if as_json:
            import json

            json.dump(error.as_json(), sys.stdout, indent=1)
            print(flush=True)
    return EXIT_CANNOT_RUN


def _open_what_is_closed() -> None:
    """A standard stream that is closed takes what we print and loses it; a sign that it cannot show is escaped."""
    for name in ("stdout", "stderr"):
        stream = getattr(sys, name)
        if stream is None:
            setattr(sys, name, os.fdopen(os.open(os.devnull, os.O_WRONLY), "w", encoding="utf-8"))
        elif hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")


def _print_no_more() -> None:
    """Nothing is left to be flushed when Python ends."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


class _Parser(argparse.ArgumentParser):
    """Wrong words on the command line are one line too."""

    def error(self, message: str) -> None:  # type: ignore[override]
        said = TabsideError(f"{message}; see `{self.prog} --help`")
        raise SystemExit(_told(said, as_json="--json" in sys.argv[1:]))


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(
        prog="tabside",
        description="Check the wiring schematic of a small craft drawn in KiCad; work out what to cut, make and buy.",
        epilog="Tabside checks a drawing, not the parts in your hand: battery and USB unplugged, propellers off, "
        "wheels off the ground; meter before power.",
    )
    parser.add_argument("--version", action="version", version=f"tabside {__version__}")
    # `prog` is given so that argparse need not work it out, which would load a terminal library at every start.
    commands = parser.add_subparsers(
        dest="command", required=True, metavar="COMMAND", parser_class=_Parser, prog="tabside"
    )
    _add(commands, "nets", "list the nets, exactly as in KiCad's netlist")
    check = _add(commands, "check", "check the wiring and list what is wrong")
    check.add_argument(
        "--fail-on",
        choices=("error", "warning", "note", "never"),
        default="error",
        help="exit 1 when a finding is at least this severe (default: error)",
    )
    plan = _add(commands, "plan", "show step by step how each cable is made and tested")
    plan.add_argument(
        "--cable", metavar="MARK", help="only this cable, for example C3, or one loose wire, for example W12"
    )
    export = _add(
        commands, "export", "write the documents: findings, plan, wire list, cut list, BOM, test sheets, port list"
    )
    export.add_argument(
        "--to", type=_folder, metavar="DIR", required=True, help="folder for the documents; made when missing"
    )
    export.add_argument("--only", metavar="LIST", help=f"documents, comma-separated: {DOCUMENTS} (default: all)")
    export.add_argument(
        "--as", dest="formats", metavar="LIST", help=f"formats, comma-separated: {FORMATS} (default: all)"
    )
    what = "show what changed between two revisions, and what to do on the bench"
    compare = commands.add_parser("compare", help=what, description=what)
    side = "a root schematic, REV:path/to/ROOT.kicad_sch of a git revision"
    compare.add_argument("old", metavar="OLD", help=f"{side}, or a saved `export --json`")
    compare.add_argument("new", metavar="NEW", help=side)
    compare.add_argument("--json", action="store_true", help="print one JSON object and nothing else")
    _add_reading(compare)
    compare.add_argument("--to", type=_folder, metavar="DIR", help="folder for the comparison as documents")
    compare.add_argument(
        "--as", dest="formats", metavar="LIST", help=f"formats, comma-separated: {FORMATS} (default: all)"
    )
    compare.set_defaults(run="compare")
    diagnose = _add(commands, "diagnose", "find the likeliest mistakes behind failed rows of the continuity sheet")
    rows = "steps or ids of the continuity sheet, separated by commas"
    diagnose.add_argument("--failed", metavar="ROWS", required=True, help=f"{rows}: those that failed")
    diagnose.add_argument("--passed", metavar="ROWS", help="those that passed; what is not named was not measured")
    diagnose.add_argument(
        "--sheet", metavar="HASH", help="the drawing's hash as printed on the sheet; another drawing's is refused"
    )
    what = "list the connector families that Tabside knows"
    families = commands.add_parser("families", help=what, description=what)
    families.add_argument("family", nargs="*", help="show these only, with all that is known and its sources")
    families.add_argument("--json", action="store_true", help="print one JSON object and nothing else")
    families.set_defaults(run="families")
    what = "check again at every save, and tell what changed; Ctrl-C ends it"
    watch = _add(commands, "watch", what, as_json="print one JSON object a line for each change of the verdict")
    watch.add_argument("--to", type=_folder, metavar="DIR", help="folder in which the findings page is kept fresh")
    what = "explain what a finding means, why it matters, how to fix it, and its source"
    explain = commands.add_parser("explain", help=what, description=what)
    explain.add_argument("rule", metavar="RULE", nargs="?", help="the name of the rule (default: all, in short)")
    explain.add_argument("--json", action="store_true", help="print one JSON object and nothing else")
    explain.set_defaults(run="explain")
    stamp = _add(
        commands, "stamp", "write cable and wire numbers into the drawing's fields; close the schematic in KiCad first"
    )
    stamp.add_argument("--dry-run", action="store_true", help="show what it would write, and change nothing")
    _add_boards(commands)
    _add_kicad(commands)
    return parser


def _folder(text: str) -> str:
    if not text.strip():
        raise argparse.ArgumentTypeError("name a folder")
    return text


_ONE_OBJECT = "print one JSON object and nothing else"


def _add(
    commands: argparse._SubParsersAction[_Parser], name: str, what: str, as_json: str = _ONE_OBJECT
) -> argparse.ArgumentParser:
    command: argparse.ArgumentParser = commands.add_parser(name, help=what, description=what)
    command.add_argument("root", metavar="ROOT.kicad_sch", help="the root schematic")
    command.add_argument("--json", action="store_true", help=as_json)
    _add_reading(command)
    command.set_defaults(run=name)
    return command


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


def _add_boards(commands: argparse._SubParsersAction[_Parser]) -> None:
    what = "begin a board file, read one from a table, draw it back, make KiCad parts of it"
    boards = commands.add_parser("boards", help=what, description=what)
    boards.set_defaults(run="boards")
    actions = boards.add_subparsers(
        dest="action", required=True, metavar="ACTION", parser_class=_Parser, prog="tabside boards"
    )
    new = actions.add_parser("new", help="begin a board file", description="Begin a commented board file.")
    new.add_argument("name", metavar="NAME", help="the board's name; the file is NAME.board.toml")
    new.add_argument("--force", action="store_true", help="replace a file that is there")
    read = actions.add_parser(
        "read", help="make a board file of a table", description="Read pinouts from a CSV, an XLSX or pasted lines."
    )
    read.add_argument("table", metavar="TABLE", help="CSV, XLSX, or a text file with lines such as `1 5V`")
    read.add_argument("--to", metavar="FILE", help="the board file to write, NAME.board.toml")
    read.add_argument("--name", help="the board's name (default: the file's)")
    read.add_argument("--force", action="store_true", help="replace a file that is there")
    show = actions.add_parser(
        "show", help="draw every plug back", description="Draw the plugs as printed on the board and in the hand."
    )
    show.add_argument("files", metavar="FILE", nargs="*", help="board files")
    show.add_argument("--enter", action="store_true", help="open the page on which a pinout is entered")
    show.add_argument("--to", metavar="PAGE.html", help="also write the page to hold against the maker's picture")
    library = actions.add_parser(
        "library", help="make KiCad parts of board files", description="Make KiCad parts: symbols and whole boards."
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
        action.add_argument("--json", action="store_true", help="print one JSON object and nothing else")


def _add_kicad(commands: argparse._SubParsersAction[_Parser]) -> None:
    what = "put Tabside into KiCad, or take it out"
    kicad = commands.add_parser("kicad", help=what, description=what)
    kicad.set_defaults(run="kicad")
    actions = kicad.add_subparsers(
        dest="action", required=True, metavar="ACTION", parser_class=_Parser, prog="tabside kicad"
    )
    for name, what in (
        ("install", "install the toolbar buttons and the BOM and netlist script into every KiCad found"),
        ("status", "show which KiCad versions are installed and what Tabside has put into them"),
        ("remove", "remove everything that install added"),
    ):
        action = actions.add_parser(name, help=what, description=what)
        action.add_argument("--json", action="store_true", help="print one JSON object and nothing else")
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
