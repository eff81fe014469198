"""Builds the package that KiCad's Plugin and Content Manager installs from a file.

    python -m tabside.kicad.package [FOLDER]

Writes `tabside-kicad-VERSION.zip`; the same version gives the same bytes.  The package holds the buttons, the
script door and the symbol library; the first two call the `tabside` that `tabside kicad install` recorded, else the one
on the path.
"""

from __future__ import annotations

import io
import json
import sys
import zipfile
from importlib.resources import files
from pathlib import Path

from tabside import __version__
from tabside.kicad.install.scripts import IDENTIFIER, loaded_files
from tabside.kicad.install.symbol_library import FILE as SYMBOLS
from tabside.kicad.made_file import write_made
from tabside.kicad.symbols import library_text
from tabside.kicad.versions import FIRST_WITH_BUTTON

SCHEMA = "https://go.kicad.org/pcm/schemas/v1"
_NO_CLOCK = (1980, 1, 1, 0, 0, 0)  # the first date that a zip can hold
_SHORT = "Checks the wiring of a small craft, and makes its wire list, cut list and bill of materials."
_LONG = (
    "Buttons in the schematic editor: check, make all documents, compare with the last commit, the list of documents; "
    "and a symbol library of connectors. They need the Python program tabside on the path; "
    "`tabside kicad install` sets all of it up together. Tabside checks a drawing, not "
    "the real parts: battery and USB unplugged, propellers off, meter before power."
)


def metadata() -> dict[str, object]:
    """What the package says of itself.  Source of the keys: KiCad's package schema, version 1."""
    return {
        "$schema": SCHEMA,
        "name": "Tabside",
        "description": _SHORT,
        "description_full": _LONG,
        "identifier": IDENTIFIER,
        "type": "plugin",
        "author": {"name": "The Tabside authors", "contact": {}},
        "license": "MIT",
        "resources": {},
        "tags": ["wiring", "harness", "connectors"],
        "versions": [
            {
                "version": __version__,
                "status": "testing",
                "kicad_version": ".".join(map(str, FIRST_WITH_BUTTON)),
                "runtime": "ipc",
            }
        ],
    }


def package_bytes() -> bytes:
    """The zip: metadata.json, plugins/ with the buttons, symbols/, resources/icon.png."""
    ours = files("tabside.kicad")
    entries = {
        "metadata.json": (json.dumps(metadata(), indent=2) + "\n").encode(),
        "resources/icon.png": ours.joinpath("package_icon.png").read_bytes(),
        f"symbols/{SYMBOLS}": library_text(FIRST_WITH_BUTTON).encode(),
    }
    entries |= {f"plugins/{name}": content for name, content in loaded_files().items()}
    packed = io.BytesIO()
    # Not compressed: the bytes would differ from one library of compression to the next.
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_STORED) as package:
        for name, content in sorted(entries.items()):
            entry = zipfile.ZipInfo(name, _NO_CLOCK)
            entry.create_system = 3  # the same on every system
            entry.external_attr = 0o644 << 16
            package.writestr(entry, content)
    return packed.getvalue()


def main(arguments: list[str]) -> int:
    folder = Path(arguments[0]) if arguments else Path()
    target = folder / f"tabside-kicad-{__version__}.zip"
    return write_made(target, package_bytes())


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
