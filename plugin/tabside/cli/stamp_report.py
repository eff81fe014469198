"""What `tabside stamp` says in the terminal."""

from __future__ import annotations

import textwrap

from tabside.cli.report import WIDTH
from tabside.stamping import Stamped
from tabside.words.visible_text import visible


def print_stamped(stamped: Stamped, *, done: bool) -> None:
    """What was written, or would be."""
    count = len(stamped.changed)
    if not count:
        print(f"{visible(stamped.craft.name)}: the drawing has all its marks already; nothing to write.")
    else:
        would = "Written" if done else "Would write"
        print(f"{would}: marks of {count} termination{'s' if count != 1 else ''}")
        for file in stamped.files:
            print(f"  {visible(file)}")
        for name in stamped.changed:
            said = ", ".join(value for value in stamped.values[name].values() if value) or "no mark any more"
            print(_filled(f"  {name}: {said}"))
    for file in stamped.unconfirmed:
        print(_filled(f"{file}: proven by reading it again; kicad-skip cannot write this file and so not confirm it."))
    if stamped.gone:
        print(
            _filled(
                f"Gone: {', '.join(stamped.gone)}: they belong to nothing any more; take their labels off the wires."
            )
        )
    for name, why in stamped.not_stamped:
        print(_filled(f"Not stamped: {name}: {why}."))
    if count and done:
        print(_filled("The fields are hidden: Edit > Symbol Properties shows them. The marks stay as they are now."))


def _filled(text: str) -> str:
    return textwrap.fill(visible(text), WIDTH, subsequent_indent="    ", break_long_words=False, break_on_hyphens=False)
