"""Every word of inputs and results, declared once: one file for each chapter.

The last part of a word's name is its unit; a percent names its basis. ``WORDS`` is the whole vocabulary by name.
"""

from __future__ import annotations

from sandmix.language.words import Choice, Quantity, Sentence, Word
from sandmix.vocabulary import (
    bench_words,
    book_words,
    carbon_words,
    charge_words,
    choice_words,
    choosing_words,
    diagnosis_words,
    drying_words,
    estimate_words,
    feeding_words,
    feel_words,
    fit_words,
    flask_words,
    gating_words,
    habit_words,
    heat_words,
    learned_words,
    lot_words,
    mass_words,
    metal_words,
    pattern_words,
    reading_words,
    season_words,
    share_words,
    sieve_words,
    stock_words,
    tin_words,
    trade_words,
    two_sand_words,
)

CHAPTERS = {
    "Shares of a sand": share_words.CHAPTER,
    "Masses and volumes of sand, clay and water": mass_words.CHAPTER,
    "The flask": flask_words.CHAPTER,
    "Choosing a flask": fit_words.CHAPTER,
    "The riser": feeding_words.CHAPTER,
    "The pour": metal_words.CHAPTER,
    "The charge": charge_words.CHAPTER,
    "The metal's way in": gating_words.CHAPTER,
    "The pattern": pattern_words.CHAPTER,
    "After the pour": heat_words.CHAPTER,
    "The heap book": book_words.CHAPTER,
    "What your readings teach": learned_words.CHAPTER,
    "Test the sand": bench_words.CHAPTER,
    "Dose by the tin": tin_words.CHAPTER,
    "Judge a handful": feel_words.CHAPTER,
    "Your own readings": reading_words.CHAPTER,
    "Live clay": estimate_words.CHAPTER,
    "Dry the sand": drying_words.CHAPTER,
    "Grain size": sieve_words.CHAPTER,
    "Choosing materials": choosing_words.CHAPTER,
    "Lots of sand": lot_words.CHAPTER,
    "Look ahead": habit_words.CHAPTER,
    "Carbon in the sand": carbon_words.CHAPTER,
    "Dump, dilute or keep": season_words.CHAPTER,
    "Facing and backing": two_sand_words.CHAPTER,
    "What to buy": trade_words.CHAPTER,
    "Materials on hand": stock_words.CHAPTER,
    "What went wrong": diagnosis_words.CHAPTER,
    "Choices": choice_words.CHAPTER,
}


def _by_name() -> dict[str, Word]:
    words: dict[str, Word] = {}
    for chapter in CHAPTERS.values():
        for word in chapter:
            if word.name in words:
                raise ValueError(f"{word.name} is declared twice")
            words[word.name] = word
    return words


WORDS = _by_name()


def quantity(name: str) -> Quantity:
    """Return the word *name*, which must be a number with a unit."""
    word = WORDS[name]
    assert isinstance(word, Quantity), name
    return word


def default_of(name: str) -> float:
    """Return the default of the word *name*, which must be a number with one."""
    default = quantity(name).default
    assert default is not None, name
    return default


__all__ = ["CHAPTERS", "WORDS", "Choice", "Quantity", "Sentence", "Word", "default_of", "quantity"]
