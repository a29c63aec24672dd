"""Gradings in words, as worked examples and printed cards show them."""

from __future__ import annotations

import json

import draw
import draw_rows


def test_a_sieve_without_a_number_is_named_by_its_opening() -> None:
    words = draw.description()["words"]
    shown = draw_rows.in_words(words["retained"], "50: 21.4; 0.8 mm: 3; pan: 0.2")
    assert shown == "No. 50: 21.4; 0.8 mm: 3; pan: 0.2"
    lots = json.dumps([{"kg": 5, "retained": {"0.8 mm": 3, "pan": 1}}])
    assert draw_rows.in_words(words["lots"], lots) == "Lot 1: mass 5 kg, retained on each sieve (0.8 mm 3, pan 1)"
