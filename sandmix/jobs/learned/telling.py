"""The texts of *learned*: a card for each figure, what would teach most, and the entries that set a figure back."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Card, Computed, Lead, Next, Point, Record, Telling, ToDo
from sandmix.book.events import FIGURE, FORGOTTEN
from sandmix.jobs.learned.form import ResolvedLearned
from sandmix.language.sources import SOURCES
from sandmix.language.wording import list_of, true_minus
from sandmix.lessons.learned import DENSITY, FINES, GRANULES, SLOPE, Learned, sources
from sandmix.maths.uncertainty import Band
from sandmix.vocabulary import quantity
from sandmix.vocabulary.learned_words import FIGURES, LID_LOSS, LOSS, OPEN_LOSS

HALF, SETTABLE = 0.5, 0.99
"""From these shares of the general figure on, a figure is mostly general, and there is nothing to set back."""
MOST_TO_DO = 2
TITLES = ("Figure by figure: the bar is what is your own", "How it was learned")
TEACHES = {
    DENSITY: "Ram a flask level, weigh its sand, and divide by its litres",
    LOSS: "Weigh the sand that does not come back from the next cast",
    LID_LOSS: "Test the moisture at the end of a casting day, and again before the next, at least three times",
    OPEN_LOSS: "Say in the book when the heap stands open, and test the moisture before and after, at least three times",
    GRANULES: "Test the live clay right after granules go in, or mix a small batch of them alone and test that",
    SLOPE: "Read the tin and dry a handful of the same sand",
    FINES: "Test the dead fines now, and again five casts later",
}
"""What teaches each figure, as a thing to do."""
COUNTED_IN = {LID_LOSS: "points", OPEN_LOSS: "points", SLOPE: "points per 1 % of water"}
"""What a figure without a unit is counted in."""
USED = {
    DENSITY: "Fill the flask, Choose a flask and Facing and backing begin with it.",
    LOSS: "The book counts it for a cast whose loss was not weighed.",
    LID_LOSS: "The heap book counts it from the third test on, and until then a moisture that stays.",
    OPEN_LOSS: "The heap book counts it from the third test on, and until then a moisture that stays.",
    GRANULES: "Enter it as the live share of the clay where a form asks for that.",
    SLOPE: "Dose by the tin uses it.",
    FINES: "It is what your own tests of dead fines add up to; no other job uses it yet.",
}
"""Where each figure is used."""


def tell(computed: Computed[ResolvedLearned]) -> Telling:
    """Say what the readings have taught."""
    figures = computed.form.book
    own = [figure for figure in figures if figure.readings]
    mostly = [figure for figure in own if figure.prior_share < HALF]
    return Telling(
        headline=_headline(own, mostly),
        state=(
            "your own" if len(mostly) == len(figures) else "learning" if own else "general",
            "go" if mostly else "plain",
        ),
        lead=Lead(word="own_readings", label="Own readings", text=computed.text("own_readings")),
        todo=tuple(_to_do(figures)),
        remarks=tuple(_remarks(own)),
        working=tuple(_working(figure) for figure in figures),
        cards=tuple(_card(figure) for figure in figures),
        cards_titles=TITLES,
        records=tuple(
            Record(
                kind=FORGOTTEN,
                label=f"Set back: {FIGURES[figure.word]}",
                words={FIGURE: figure.word, "note": _note(figure)},
            )
            for figure in own
            if figure.prior_share < SETTABLE
        ),
        next=tuple(_next(computed, own)),
        sources=sources(figures),
        labels={GRANULES: "Live share of clay granules", SLOPE: "Slope of compactability against water"},
    )


def _headline(own: list[Learned], mostly: list[Learned]) -> str:
    if not own:
        return "Your book has no reading yet that teaches one of these figures: all of them are general."
    if not mostly:
        return "Your readings have begun to teach, but each figure is still mostly the general one."
    return f"Mostly your own by now: {list_of([FIGURES[figure.word] for figure in mostly], 'and')}."


def _to_do(figures: Iterable[Learned]) -> Iterable[ToDo]:
    """What would teach most: for the figures that are least one's own."""
    least = sorted((figure for figure in figures if figure.prior_share >= HALF), key=lambda figure: -figure.prior_share)
    return (ToDo(text=TEACHES[figure.word]) for figure in least[:MOST_TO_DO])


def _remarks(own: Iterable[Learned]) -> Iterable[str]:
    for figure in own:
        if not figure.first_band[0] <= figure.now <= figure.first_band[1]:
            yield (
                f"Your {FIGURES[figure.word]}, {_shown(figure.now, figure)}, is outside what is usual, {_range(figure)}. Check the readings; if they "
                "are right, your sand or your way of working differs from the usual."
            )
    yield "Any figure can be set back, and that entry can be undone in the book. If you know a figure better, enter it as one of your own."


def _note(figure: Learned) -> str:
    """What the entry that sets a figure back says of it."""
    return f"It was {_shown(figure.now, figure)}: {figure.from_where}."


def _card(figure: Learned) -> Card:
    general = f"{_shown(figure.first, figure)}, likely range {_range(figure)}: {SOURCES[figure.source].citation}."
    now = f"{_shown(figure.now, figure)}, likely range {_range(figure, now=True)}."
    share = f"{100 * figure.prior_share:.0f} % of it is still the general figure."
    points = [
        Point(name="At first", texts=(general,)),
        Point(name=f"Now: {figure.from_where}", texts=(now, share) if figure.readings else (now,)),
        Point(name="What it is used for", texts=(USED[figure.word],)),
        Point(name="What teaches it", texts=(f"{TEACHES[figure.word]}.",)),
    ]
    declared = quantity(figure.word)
    label = {GRANULES: "Live share of clay granules", SLOPE: "Slope of compactability"}.get(figure.word, declared.label)
    return Card(
        title=label,
        share_pct=100 * (1 - figure.prior_share),
        text=f"{_shown(figure.now, figure)}, {figure.own_text}",
        points=tuple(points),
    )


def _shown(value: float, figure: Learned) -> str:
    return _with_unit(quantity(figure.word).show_to(value, _side(figure.band, figure.now)), figure)


def _range(figure: Learned, *, now: bool = False) -> str:
    band, value = (figure.band, figure.now) if now else (figure.first_band, figure.first)
    return _with_unit(quantity(figure.word).show_range(*band, value, _side(band, value)), figure)


def _with_unit(text: str, figure: Learned) -> str:
    return " ".join((text, COUNTED_IN[figure.word])) if figure.word in COUNTED_IN else text


def _side(band: Band, value: float) -> float:
    """The half-width to round by: half of the narrower side, so that both ends of a lopsided range stay in sight."""
    return min(value - band[0], band[1] - value) / 2


def _working(figure: Learned) -> str:
    ends = (figure.first, *figure.first_band, figure.now, *figure.band)
    first, first_low, first_high, now, low, high = (true_minus(f"{end:.4g}") for end in ends)
    return (
        f"{FIGURES[figure.word]}: at first {first} ({first_low} to {first_high}), {figure.from_where}, now {now} ({low} to {high}); "
        f"share of the general figure {100 * figure.prior_share:.1f} %"
    )


def _next(computed: Computed[ResolvedLearned], own: Iterable[Learned]) -> Iterable[Next]:
    yield Next(job="heap", label="The heap book")
    if any(figure.word == DENSITY for figure in own):
        yield Next(job="flask", label="Fill the flask", inputs=computed.carried_as_sure(rammed_density_kg_l=DENSITY))
    else:
        yield Next(job="bench", label="Test the sand")
