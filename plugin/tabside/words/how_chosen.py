"""Why a wire is there, in a builder's words."""

from __future__ import annotations

from collections.abc import Mapping

WORDS: Mapping[str, str] = {
    "drawn": "drawn",
    "drawn together": "drawn, with others on one wire",
    "two contacts": "by name, only these two",
    "beside": "by name, beside the wires it serves",
    "joined": "by name, the only way",
    "chosen": "chosen, others would do as well",
}


def how_words(how: str) -> str:
    return WORDS.get(how, how)
