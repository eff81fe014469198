"""From the drawing to the craft: terminations, roles, leads, links and cables."""

from __future__ import annotations

from tabside.wiring.craft import build_craft

__all__ = ["build_craft"]
