"""What a terminal is given."""

import json

import pytest

from sandmix.doors import terminal


@pytest.mark.parametrize(("columns", "width"), [("80", 80), ("500", 96), ("3", 20), ("0", 96), ("wide", 96)])
def test_a_line_is_as_long_as_the_terminal_is_wide_but_no_longer_than_a_page(monkeypatch, columns, width):
    monkeypatch.setenv("COLUMNS", columns)
    assert terminal.width() == width


HIDDEN = ["\x00", "\x07", "\x1b", "\x7f", "\x9b", "\x9d", "\u202e", "\u2066", "\u200b", "\ud800", "\U000e0041"]
"""Bell, escape, delete, the one-letter starts of sequences, letters that turn the line around, none at all, half a letter, a tag."""


@pytest.mark.parametrize("letter", HIDDEN)
def test_what_cannot_be_shown_becomes_a_mark(letter):
    assert terminal.clean(f"a{letter}ü") == "a\N{REPLACEMENT CHARACTER}ü"
    assert terminal.clean_all({"a": [f"{letter}", 1, None]}) == {"a": ["\N{REPLACEMENT CHARACTER}", 1, None]}


@pytest.mark.parametrize("letter", HIDDEN)
def test_json_stays_the_same_value_with_nothing_to_obey(letter):
    text = json.dumps({"name": f"a{letter}ü"}, ensure_ascii=False, indent=1)
    shown = terminal.clean_json(text)
    assert json.loads(shown) == json.loads(text)
    assert shown.replace("\n", "").isprintable()
    assert "ü" in shown


@pytest.mark.parametrize("blank", ["\n", "\r", "\t", "\x0b", "\u2028", "\u00a0"])
def test_a_blank_of_any_kind_becomes_a_space(blank):
    assert terminal.clean(f"a{blank}b") == "a b"


def test_lines_stay_apart():
    assert terminal.clean_lines("a\nb\x1b") == "a\nb\N{REPLACEMENT CHARACTER}"
