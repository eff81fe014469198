"""What `tabside stamp` says in the terminal."""

from __future__ import annotations

from tabside.cli.printing.paragraphs import filled
from tabside.stamping import Stamped
from tabside.words.contacts import counted
from tabside.words.visible_text import visible


def print_stamped(stamped: Stamped, *, done: bool) -> None:
    """What was written, or would be."""
    count = len(stamped.changed)
    if not count:
        print(f"{visible(stamped.craft.name)}: the drawing has all its numbers already; nothing to write.")
    else:
        would = "Written" if done else "Would write"
        print(f"{would}: numbers of cables and wires, at {counted(count, 'symbol')}")
        for file in stamped.files:
            print(f"  {visible(file)}")
        for name in stamped.changed:
            said = ", ".join(value for value in stamped.values[name].values() if value) or "no number any more"
            print(filled(f"{name}: {said}", "  ", "    ", whole_words=True))
    for file in stamped.unconfirmed:
        _say(f"{file}: checked by reading it again; kicad-skip cannot write this file, so it cannot confirm it.")
    if stamped.gone:
        _say(f"Gone: {', '.join(stamped.gone)}: they belong to nothing any more; take their labels off the wires.")
    for name, why in stamped.not_stamped:
        _say(f"Not stamped: {name}: {why}.")
    if count and done:
        _say("The fields are hidden: Edit > Symbol Properties shows them. The numbers stay as they are now.")


def _say(text: str) -> None:
    print(filled(text, "", "    ", whole_words=True))
