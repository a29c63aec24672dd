"""What can happen to a heap: the kinds of event, each with its form, and the words of an event."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import Form
from sandmix.entries.cast_entries import MetalChanged, Poured
from sandmix.entries.reading_entries import FEEL, Calibrated, Forgotten, Measured
from sandmix.entries.sand_entries import Added, Bought, Discarded, Joined, Lost, Mixed, SplitOff
from sandmix.entries.water_entries import Opened, PutAway, RainedOn, Watered
from sandmix.language.errors import InputError
from sandmix.vocabulary import WORDS, quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class EventKind:
    """One kind of event: its form, its label, and a line of help; *quick* kinds are offered first."""

    key: str
    label: str
    help: str
    form: type[Form]
    quick: bool = False


KINDS: Mapping[str, EventKind] = {
    kind.key: kind
    for kind in (
        EventKind(key="poured", label="A cast was poured", help="Clay burns, water is driven off, some sand is lost.", form=Poured, quick=True),
        EventKind(key="tempered", label="Water was added", help="To bring the sand to its moisture.", form=Watered, quick=True),
        EventKind(key="measured", label="The sand was tested", help="Weighed, dried, washed or titrated.", form=Measured, quick=True),
        EventKind(key="added", label="Sand, clay or water was put back", help="As bought.", form=Added, quick=True),
        EventKind(key="mixed", label="New sand was mixed in", help="With its planned clay and moisture.", form=Mixed),
        EventKind(key="discarded", label="Sand was thrown away", help="Crust, burnt sand, or just some of it.", form=Discarded),
        EventKind(key="riddled", label="The sand was riddled", help="What stayed in the riddle and did not go back.", form=Lost),
        EventKind(key="spilled", label="Some sand was spilled", help="And not swept back in.", form=Lost),
        EventKind(key="dried", label="The sand dried", help="In the sun, or by standing.", form=Watered),
        EventKind(key="rained_on", label="The sand got wet", help="Rain, or a leaking roof. Leave both empty if you don't know.", form=RainedOn),
        EventKind(key="opened", label="The heap stood open", help="Without its lid, from now on or until now.", form=Opened),
        EventKind(key="split", label="Some sand was split off", help="To start another heap.", form=SplitOff),
        EventKind(key="joined", label="Other sand was tipped in", help="As it lay.", form=Joined),
        EventKind(key="bought", label="Materials were bought", help="Not in the heap yet.", form=Bought),
        EventKind(key="put_away", label="The heap was put away", help="Under a lid or in the open, until it is used again.", form=PutAway),
        EventKind(key="metal_changed", label="Another metal from now on", help="Other moisture limits apply.", form=MetalChanged),
        EventKind(key="calibrated", label="My own equipment was measured", help="A rammed flask, the spray bottle, or the tin.", form=Calibrated),
        EventKind(key="forgotten", label="A learned figure was set back", help="For a new bottle or tin.", form=Forgotten),
    )
}  # fmt: skip
UNDONE, CORRECTED = "undone", "corrected"
FORGOTTEN, FIGURE = "forgotten", "learned_figure"
"""The kind of entry that sets a learned figure back, and its word for which."""
NOT_WORDS = ("id", "kind", "at", "note", "outcome", "of")


def figure_set_back(event: Mapping[str, Any]) -> str:
    """Return the figure that an entry sets back; empty where it sets back none, or none that can be read."""
    figure = event.get(FIGURE)
    return figure if event["kind"] == FORGOTTEN and isinstance(figure, str) else ""


def words_of(event: Mapping[str, Any]) -> dict[str, Any]:
    """Return the words of an event that its form reads, without the keys that every event has."""
    return {word: value for word, value in event.items() if word not in NOT_WORDS}


def is_test(words: Mapping[str, Any]) -> bool:
    """Return whether an entry of the kind *measured* tests the heap: it has more than the feel of a handful, and what was done because of it."""
    return bool(words.keys() - {FEEL, "water_added_kg", "water_dried_kg", "scale_step_g"})


def chosen(word: str, words: Mapping[str, Any]) -> str | None:
    """Return a choice among the words of an event, by its key; None where there is none, or none that can be read."""
    if words.get(word) is None:
        return None
    try:
        return str(WORDS[word].read(words[word]).value)
    except InputError:
        return None


def typed(word: str, words: Mapping[str, Any]) -> tuple[float, float] | None:
    """Return a figure among the words of an event as it was typed, with its 95 % half-width; None where there is none, or none that can be read."""
    if words.get(word) is None:
        return None
    declared = quantity(word)
    try:
        taken = declared.read(words[word])
    except InputError:
        return None
    assert isinstance(taken.value, float)
    half = declared.half_width(taken.value, assumed=False) if taken.half_width is None else taken.half_width
    return taken.value, half
