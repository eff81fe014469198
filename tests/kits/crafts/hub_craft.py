"""A gps and a radio at a hub, each by a plug of its own or both by one."""

from crafts.craft_kit import craft, plug

_NETS, _LABELS = ("V A B G", "V2 C D G2"), ("5V, TX, RX, GND", "5V, TX2, RX2, GND")


def two_at_a_hub(*, merged, **at_hub):
    """`at_hub`: more fields of the hub's connectors: J1, and J3 where they are not `merged`."""
    fields = {"board": "hub", "family": "JST GH", **at_hub}
    hub = [("J1", " ".join(_NETS), ", ".join(_LABELS))] if merged else zip(("J1", "J3"), _NETS, _LABELS, strict=True)
    far = zip(("J2", "J4"), _NETS, ("gps", "radio"), strict=True)
    return craft(
        *(plug(ref, net, signals=signals, **fields) for ref, net, signals in hub),
        *(plug(ref, net, board=board, family="JST GH", signals="5V, RX, TX, GND") for ref, net, board in far),
    )
