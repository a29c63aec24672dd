"""Books of random events: every gram is accounted for, nothing goes below zero, and a stored event stays as it is."""

import json

import pytest
from effort import examples
from hypothesis import assume, example, given
from hypothesis import strategies as st

from sandmix.book import book, event_effects
from sandmix.book.events import KINDS
from sandmix.book.heap import HeapState, Outcome, fold
from sandmix.doors.facade import call
from sandmix.language.errors import InputError
from sandmix.materials.sand import PARTS
from sandmix.recipes import sand_loss

AT = "2026-05-02"
DAYS = st.sampled_from([AT, "2026-05-09T08:00Z", "2026-06-20", "2027-03-01"])
CLOSE_KG = 1e-9


def kg(most=60.0, least=0.05):
    return st.floats(least, most)


LYING = {"clay_pct_dry": st.floats(0, 30), "moisture_pct_wet": st.floats(0, 20)}
FINES = {"dead_fines_pct_dry": st.floats(0, 30)}


def event(kind, words, optional=None):
    fixed = {"kind": st.just(kind), "at": DAYS, **words}
    return st.fixed_dictionaries(fixed, optional=optional or {})


COMING = st.one_of(
    event("mixed", {"make_kg": kg(), **LYING}, FINES),
    event("joined", {"joined_kg": kg(), **LYING}, FINES),
    event("added", {"sand_kg": kg(), "clay_kg": kg(5), "water_kg": kg(3)}, {"clay_activity_pct": st.floats(10, 100)}),
)
OTHER = st.one_of(
    event("tempered", {"water_kg": st.floats(0, 3)}),
    event("rained_on", {"moisture_pct_wet": st.floats(0, 20)}),
    event("dried", {"water_kg": st.floats(0, 3)}),
    event("dried", {"moisture_pct_wet": st.floats(0, 20)}),
    event("discarded", {"discard_kg": kg()}),
    event("discarded", {"discard_kg": kg(3), "discarded_as": st.just("crust")}),
    event("riddled", {"lost_kg": kg()}),
    event("split", {"split_kg": kg()}),
    event("measured", {"heap_kg": kg(120)}, LYING | FINES),
    event("measured", {"moisture_pct_wet": st.floats(0, 20)}),
    event("measured", {"moisture_pct_wet": st.floats(0, 20), "water_added_kg": st.floats(0, 3)}),
    event("measured", {"moisture_pct_wet": st.floats(0, 20), "water_dried_kg": st.floats(0, 3)}),
    event("put_away", {"cover": st.sampled_from(["lid", "open"])}, {"moisture_pct_wet": st.floats(0, 20)}),
    event("measured", {"washed_pct_dry": st.floats(0, 40), "gfn": st.floats(20, 200)}),
    event("calibrated", {"strokes_per_100ml": st.floats(1, 1000)}),
    event("bought", {"sand_kg": kg()}),
    event("metal_changed", {"metal": st.sampled_from(["aluminium", "tin_bronze"])}),
    event("poured", {"metal_kg": kg(5)}, {"sand_lost_kg": kg(3), "modulus_mm": st.sampled_from([4, 8])}),
)
EVENTS = st.lists(st.one_of(COMING, OTHER, OTHER), min_size=1, max_size=8)
OF = st.sampled_from([f"e{at}" for at in range(1, 9)])
BACK = st.one_of(
    event("undone", {"of": OF}),
    event("corrected", {"of": OF}, {"make_kg": kg(), "clay_pct_dry": st.floats(0, 30), "water_kg": st.floats(0, 3)}),
    event("corrected", {"of": OF}, {"metal_kg": kg(5), "sand_lost_kg": kg(3)}),
)
HISTORIES = st.lists(st.one_of(COMING, OTHER, BACK), min_size=1, max_size=10)
TAKES = {"discarded": "discard_kg", "riddled": "lost_kg", "split": "split_kg"}
BRINGS = {"mixed": "make_kg", "joined": "joined_kg"}


def append(opened, given):
    return book.with_event(opened, given)


def written(events, opened=None):
    """A book into which all of them were written that were not refused."""
    opened = opened or book.read([])
    for given_event in events:
        try:
            opened = append(opened, given_event)
        except InputError:
            continue
    return opened


def parts_of(opened):
    return fold(opened.events).total.by_part()


@given(EVENTS)
@examples(300)
def test_the_mass_of_the_heap_is_what_came_in_less_what_went_out(events):
    """What each event's own words add or take, and the outcome of tests, of heat and of casts."""
    opened, came, went = book.read([]), 0.0, 0.0
    for given_event in events:
        there = sum(parts_of(opened).values())
        water = parts_of(opened)["water_kg"]
        try:
            opened = append(opened, given_event)
        except InputError:
            continue
        kind, words = given_event["kind"], given_event
        moved = sum(opened.events[-1]["outcome"]["change"].values())
        if kind in BRINGS:
            came += words[BRINGS[kind]]
        elif kind == "added":
            came += words["sand_kg"] + words["clay_kg"] + words["water_kg"]
        elif kind == "tempered":
            came += words["water_kg"]
        elif kind == "dried" and "water_kg" in words:
            went += min(water, words["water_kg"])
        elif kind in TAKES:
            went += min(there, words[TAKES[kind]])
        elif kind in ("measured", "poured", "rained_on", "dried", "put_away"):
            came += moved
        else:
            assert moved == 0
        if kind == "poured":
            assert moved <= 0
    assert sum(parts_of(opened).values()) == pytest.approx(came - went, abs=CLOSE_KG)


@given(HISTORIES)
@examples(200)
def test_nothing_is_ever_below_zero(events):
    opened = written(events)
    state = HeapState()
    for one in opened.events:
        state = state.after(Outcome.from_dict(one["outcome"]))
        assert min(state.total.by_part().values()) >= -1e-6
        assert all(low >= 0 and high >= low for low, high in state.bands().values())
        assert min(state.burnt.by_name().values()) >= 0


@given(HISTORIES)
@examples(200)
def test_waiting_never_makes_a_heap_more_certain(events):
    state = fold(written(events).events)
    before = {}
    for days in (0, 1, 40, 1000):
        bands = state.at((state.as_of_s or 0.0) + 86400 * days).bands()
        for word, (low, high) in before.items():
            assert bands[word][0] <= low and bands[word][1] >= high
        before = bands


@given(HISTORIES, st.one_of(COMING, OTHER))
@examples(200)
def test_undoing_the_last_event_restores_the_heap(events, last):
    before = written(events)
    try:
        after = append(before, last)
    except InputError:
        assume(False)
    undone = append(after, {"kind": "undone", "at": AT, "of": after.events[-1]["id"]})
    was, now = fold(before.events), fold(undone.events)
    assert now.total.by_part() == pytest.approx(was.total.by_part(), abs=CLOSE_KG)
    assert now.total.variances == pytest.approx(was.total.variances, abs=CLOSE_KG)
    for same in ("casts", "own_losses", "tested_at_s", "metal", "moisture_test", "water_known_s", "covers"):
        assert getattr(now, same) == getattr(was, same)


@given(HISTORIES, HISTORIES)
@examples(100)
def test_a_fold_can_continue_from_any_event(first, second):
    one = written(first)
    both = written(second, one)
    state = fold(one.events)
    for later in both.events[len(one.events) :]:
        state = state.after(Outcome.from_dict(later["outcome"]))
    whole = fold(both.events)
    assert whole.total.by_part() == pytest.approx(state.total.by_part(), abs=CLOSE_KG)
    assert whole.total.variances == pytest.approx(state.total.variances, abs=CLOSE_KG)


@given(HISTORIES)
@examples(100)
def test_a_stored_event_does_not_change_with_the_code(events):
    """Other defaults, and no way to work anything out: the state is what was stored."""
    opened = written(events)
    saved, before = json.dumps(opened.to_dict()), fold(opened.events)
    with pytest.MonkeyPatch.context() as changed:
        changed.setattr(sand_loss, "DEFAULT_SHARE", 0.5)
        changed.setattr(event_effects, "UNKNOWN_FINES", 0.5)
        changed.setattr(book, "outcome_of", None)
        again = book.read(json.loads(saved))
    assert again.events == opened.events
    assert fold(again.events) == before


@given(HISTORIES)
@examples(100)
def test_bare_events_read_at_once_equal_those_recorded_one_by_one(events):
    opened = written(events)
    bare = [{word: value for word, value in one.items() if word != "outcome"} for one in opened.events]
    assert book.read(bare).events == opened.events


@given(HISTORIES)
@examples(60)
def test_events_recorded_at_the_door_give_the_same_heap_at_the_door(events):
    saved = []
    for one in events:
        answer = json.loads(call(json.dumps({"job": "record", "inputs": {"book": saved, "event": one}})))
        assert "fault" not in answer
        saved += [answer["event"]] if answer["ok"] else []
    heap = json.loads(call(json.dumps({"job": "heap", "inputs": {"book": saved}})))
    assert heap["ok"]
    assert heap["result"]["heap_kg"] == pytest.approx(fold(saved).sand.wet_kg, abs=CLOSE_KG)
    assert all(
        low <= heap["result"][word] + 1e-9 and heap["result"][word] <= high + 1e-9
        for word, (low, high) in heap["doubt"].items()
    )


BOOKISH = st.sampled_from(
    [
        "format",
        "version",
        "name",
        "events",
        "id",
        "kind",
        "at",
        "of",
        "note",
        "outcome",
        "change",
        "variance",
        "said",
        "metal",
        "loss_share",
    ]
)
LEAVES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=8),
    st.sampled_from([10**400, "sandmix book", "2026-05-02", "e1", "undone", "corrected", *KINDS, *PARTS]),
)
ANYTHING = st.recursive(
    LEAVES,
    lambda inner: st.one_of(
        st.lists(inner, max_size=4), st.dictionaries(st.one_of(BOOKISH, st.text(max_size=4)), inner, max_size=6)
    ),
    max_leaves=12,
)
STORED = book.read(
    [
        {"kind": "mixed", "at": AT, "make_kg": 30, "clay_pct_dry": 7, "moisture_pct_wet": 3.5},
        {"kind": "poured", "at": AT, "metal": "aluminium", "metal_kg": 1},
        {"kind": "measured", "at": AT, "heap_kg": 29},
        {"kind": "corrected", "at": AT, "of": "e1", "make_kg": 31},
        {"kind": "undone", "at": AT, "of": "e2"},
    ]
).to_dict()


def stands(inputs):
    for job in ("heap", "record"):
        text = call(
            json.dumps({"job": job, "inputs": inputs if job == "heap" else {**inputs, "event": STORED["events"][0]}})
        )
        text.encode("utf-8")
        answer = json.loads(text)
        assert "fault" not in answer, answer
        assert answer["ok"] or all(problem["message"] for problem in answer["problems"])


@given(st.one_of(st.text(), ANYTHING, ANYTHING.map(lambda data: json.dumps(data))))
@example("[" * 100_000)
@examples(400)
def test_any_book_is_answered_or_refused_with_a_message(data):
    stands({"book": data})


def _places(data, path=()):
    yield path
    parts = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for name, part in parts:
        yield from _places(part, (*path, name))


PLACES = [path for path in _places(STORED) if path]


@given(st.sampled_from(PLACES), ANYTHING)
@examples(800)
def test_a_book_with_any_value_replaced_is_answered_or_refused_with_a_message(path, value):
    damaged = json.loads(json.dumps(STORED))
    inner = damaged
    for name in path[:-1]:
        inner = inner[name]
    inner[path[-1]] = value
    stands({"book": damaged})


@given(st.sampled_from(PLACES))
def test_a_book_with_any_value_removed_is_answered_or_refused_with_a_message(path):
    damaged = json.loads(json.dumps(STORED))
    inner = damaged
    for name in path[:-1]:
        inner = inner[name]
    del inner[path[-1]]
    stands({"book": damaged})
