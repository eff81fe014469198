"""S-expressions: what is read quickly is what sexpdata's parser (1.0.2, from the package index) gives."""

import random

import pytest

from tabside.read.kicad.text.by_sexpdata import by_sexpdata
from tabside.read.kicad.text.parsing import parse
from tabside.read.kicad.text.sexpr import Atom, BadBrackets

PIECES = (
    "(",
    ")",
    "(",
    ")",
    "[",
    "]",
    '"',
    '"',
    "\\",
    "\\n",
    '\\"',
    "'",
    ";",
    "\0",
    " ",
    "\n",
    "\t",
    "\v",
    "a",
    "b-1",
    "0.5",
    "é",
)


def shown(read, text):
    """The tree with words told from texts, or that there is none."""
    try:
        return marked(read(text))
    except BadBrackets:
        return "bad"


def marked(node):
    if isinstance(node, list):
        return [marked(each) for each in node]
    return (type(node) is Atom, node) if isinstance(node, str) else repr(node)


@pytest.mark.parametrize("seed", range(20))
def test_random_text_reads_as_by_the_library(seed):
    dice = random.Random(seed)
    trees = 0
    for _ in range(400):
        text = "(" + "".join(dice.choice(PIECES) for _ in range(dice.randint(0, 14))) + dice.choice((")", "))", ""))
        found = shown(parse, text)
        assert found == shown(by_sexpdata, text), repr(text)
        trees += found != "bad"
    assert trees > 10


@pytest.mark.parametrize(
    ("text", "tree"),
    [
        ('(a "b")', [Atom("a"), "b"]),
        (r'(a "say \"b\"\\")', [Atom("a"), 'say "b"\\']),
        ('(a"b"c)', [Atom("a"), "b", Atom("c")]),
        ("(a () (b 1.50))", [Atom("a"), [], [Atom("b"), Atom("1.50")]]),
        (" (a;b)\n", [Atom("a;b")]),
    ],
)
def test_words_and_texts(text, tree):
    assert marked(parse(text)) == marked(tree)


@pytest.mark.parametrize("text", ["", "a", "()()", "(", ")", "(a))", '("a)', "(a]", '(a\\"'])
def test_what_is_no_list_is_said(text):
    with pytest.raises(BadBrackets):
        parse(text)
