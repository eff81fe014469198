"""How a link runs from end to end, in a word."""

from __future__ import annotations

from tabside.analysis.causes.link_causes import row_of
from tabside.analysis.causes.order import order_of
from tabside.analysis.joined.wired import Link, Wired
from tabside.words.contacts import counted


def order_words(wired: Wired, link: Link) -> str:
    """ "straight", "reversed", "off by 2 contacts" or "custom order"; "" without numbered rows."""
    ends = [wired.craft.terminations[reference] for reference in link]
    joints = wired.links.get(link, [])
    if any(row_of(end) is None for end in ends) or not joints:
        return ""
    joined = [(joint.a.number, joint.b.number) for joint in joints]
    if not all(a.isdecimal() and b.isdecimal() for a, b in joined):
        return ""
    order = order_of([(int(a), int(b)) for a, b in joined], ends[0].ways, ends[1].ways)
    if order.name == "shifted":
        around = ends[0].ways if ends[0].ways is not None and ends[0].ways == ends[1].ways else None
        off = abs(order.shift) if around is None else min(order.shift, around - order.shift)
        return f"off by {counted(off, 'contact')}"
    return "custom order" if order.name == "mixed" else order.name
