"""No sentence that a person sees falls back into the words that make readers stop: one list, and everything that is shown.

A sentence is a text with a space in it: the texts in the code (messages, labels, remarks, headlines) and the written pages.
"""

import ast
import re
from pathlib import Path

import pytest

import sandmix

ROOT = Path(sandmix.__file__).parent.parent
INSTEAD = {
    r"(sand|clay|heap|castings?|sides|test) wants?|wanted": "needs, target",
    r"wanting": "missing",
    r"dear": "expensive",
    r"anew": "again",
    r"nought": "zero",
    r"suffices?": "is enough",
    r"strewn?": "sprinkle",
    r"heard|told": "read, shown, given",
    r"reckon(s|ed|ing)?": "calculate",
    r"is to hold": "the target is",
    r"(goes|going|went) off": "boils off, evaporates",
    r"lies ahead": "is in the future",
    r"no number beyond": "no number above",
    r"what it can be": "too much, too little",
    r"it is needed here": "Enter the …",
    r"(is )?not asked here": "isn't an input of this job",
    r"is no amount": "isn't a number",
    r"step of the scale": "scale resolution",
    r"tub|pulley|muffin|pavers?|printed bracket": "the hall workshop",
}
WORST = re.compile(rf"\b({'|'.join(INSTEAD)})\b|\(95 %\)|(?<![\"“`_])\bdoubts?\b(?![\"”`_])", re.IGNORECASE)


def sentences(file: Path) -> list[str]:
    """The texts of a Python file that hold a space, without its docstrings."""
    tree = ast.parse(file.read_text("utf-8"))
    prose = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    texts = [node for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str)]
    return [text.value for text in texts if id(text) not in prose and " " in text.value.strip()]


@pytest.mark.parametrize("folder", ["sandmix", "site"])
def test_no_text_in_the_code_uses_the_worst_words(folder):
    files = [file for file in (ROOT / folder).rglob("*.py") if ".cache" not in file.parts]
    found = {(file.name, text) for file in files for text in sentences(file) if WORST.search(text)}
    assert found == set()


def test_no_written_page_uses_the_worst_words():
    pages = [ROOT / "README.md", *(ROOT / "site" / "docs").rglob("*.md")]
    lines = [(page.name, line) for page in pages for line in page.read_text("utf-8").splitlines()]
    assert [(name, line) for name, line in lines if WORST.search(line)] == []
