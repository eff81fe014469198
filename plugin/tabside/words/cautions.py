"""What every bench page says, because wiring can hurt people and burn boards."""

from __future__ import annotations

CAUTIONS = (
    "Battery disconnected and propellers off while you work on the wiring.",
    "Never re-pin the live end of a battery or balance lead.",
    "Check each cable with a meter before power, never with a probe pushed into a small contact.",
    "First power goes through a current limiter.",
    "Tabside checks a drawing, not the parts in your hand: find contact 1 on the real board.",
    "Local electrical codes and the makers' instructions outrank this page.",
    "Mains, high-voltage packs and crewed or road vehicles need a licensed person.",
)
