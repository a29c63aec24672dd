"""Sand that leaves the heap: no more than can be there, even if the book is somewhat off."""

from __future__ import annotations

from sandmix.asking.form import Form
from sandmix.book.heap import HeapState
from sandmix.language.errors import InputError

MORE_THAN_THE_BOOK = 1.2
LEAST_SHOWN_KG = 0.0005


def can_be_there(form: Form, word: str, state: HeapState) -> None:
    """Raise InputError where the mass *word* of the form is more than can be in the heap."""
    taken, most = getattr(form, word), state.sand.wet_kg * MORE_THAN_THE_BOOK
    if taken is not None and taken > most:
        what_to_do = (
            f"{taken:g} kg is more than the {state.sand.wet_kg:.3g} kg in the book. Weigh the heap and record that first, or "
            "check the unit."
        )
        raise InputError([form.wrong(word, f"at most {most:.3g} kg", what_to_do)])


def more_found(wet_kg: float, state: HeapState) -> tuple[str, ...]:
    """Return a line that says how much more was taken than the book had, if it was more."""
    more = wet_kg - state.sand.wet_kg
    return (f"{more:.3g} kg more than the book had",) if more > LEAST_SHOWN_KG else ()
