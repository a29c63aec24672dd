"""A sieve outside the series, such as a kitchen sieve or a window screen, is entered by its opening."""

from __future__ import annotations

import json
from urllib.parse import quote

import pytest
from playwright.sync_api import expect

TYPED = {"50": "21,4", "pan": "0,2"}
OWN = [("1,2", "3"), ("250 um", "8"), ("1/16 in", "0,5")]
GIVEN = {**TYPED, "1,2 mm": "3", "250 um": "8", "1/16 in": "0,5"}
SAID = "No. 50: 21,4; pan: 0,2; 1,2 mm: 3; 250 um: 8; 1/16 in: 0,5"


def grading(hand):
    return hand.page.locator("[data-parts=retained] [data-table]")


def of_lot(hand, at):
    table = hand.page.locator("[data-parts=lots] [data-row]").nth(at).locator("[data-table=retained]")
    table.evaluate("table => table.closest('details').setAttribute('open', '')")
    return table


def own(table):
    return table.locator("[data-own]")


def part(row, name):
    return row.locator(f'[data-part="{name}"]')


def add(table, opening, held):
    table.get_by_role("button", name="A sieve of my own").click()
    part(own(table).last, "key").fill(opening)
    part(own(table).last, "held").fill(held)


def whole(hand, word="retained"):
    text = hand.box(word).input_value()
    return json.loads(text) if text else None


def texts(table):
    return [(part(row, "key").input_value(), part(row, "held").input_value()) for row in own(table).all()]


def sieved(hand):
    hand.open("fineness").parts(grading(hand), TYPED)
    for opening, held in OWN:
        add(grading(hand), opening, held)
    return hand


def problem(hand, word="retained"):
    return hand.page.locator(f"#problem-{word}")


def test_openings_typed_box_by_box_are_answered_and_shown_in_words(hand, answer):
    sieved(hand).reads(answer("fineness", {"retained": GIVEN}))
    assert whole(hand) == GIVEN
    assert hand.page.locator("[data-answer] .given").inner_text().count(SAID) == 1


def test_an_opening_is_in_mm_unless_a_unit_is_typed(still_hand):
    sieved(still_hand)
    units = own(grading(still_hand)).locator("[data-part=key] + .unit")
    expect(units.nth(0)).to_have_text("mm")
    expect(units.nth(1)).to_be_hidden()


def test_a_new_row_is_named_by_its_labels_and_gets_the_cursor(still_hand):
    table = grading(still_hand.open("fineness"))
    table.get_by_role("button", name="A sieve of my own").press("Enter")
    row = still_hand.page.get_by_role("group", name="Sieve of my own 1")
    expect(row.get_by_role("textbox", name="Opening")).to_be_focused()
    row.get_by_role("textbox", name="What it holds").fill("4")
    expect(part(own(table), "held")).to_have_value("4")


def test_openings_survive_a_reload(hand, answer):
    sieved(hand).reads(answer("fineness", {"retained": GIVEN}))
    hand.page.reload()
    hand.ready().reads(answer("fineness", {"retained": GIVEN}))
    assert texts(grading(hand)) == OWN
    assert whole(hand) == GIVEN
    expect(hand.box("retained")).to_be_hidden()


@pytest.mark.full
@pytest.mark.engine
def test_before_the_calculator_has_loaded_the_last_answer_is_shown(hand, answer):
    told = answer("fineness", {"retained": GIVEN})
    sieved(hand).reads(told)
    hand.page.route("**/py/**", lambda _: None)
    hand.page.reload()
    hand.reads(told)
    assert texts(grading(hand)) == OWN
    expect(hand.page.locator("html[data-engine=ready]")).to_have_count(0)


def test_a_link_restores_openings(hand, answer, new_context, hand_on, address):
    sieved(hand).reads(answer("fineness", {"retained": GIVEN}))
    link = hand.link()
    other = hand_on(new_context().new_page(), address)
    other.page.goto(link)
    other.ready().reads(answer("fineness", {"retained": GIVEN}))
    assert texts(grading(other)) == OWN
    assert whole(other) == GIVEN


def test_a_link_of_pairs_fills_the_boxes_and_the_rows(hand, answer):
    pairs = "No. 70: 2; 50: 21.4, 1.2 mm: 3; 60: 8; Pan: 0.2"
    hand.page.goto(f"{hand.base}fineness/#retained={quote(pairs)}")
    hand.ready().reads(answer("fineness", {"retained": pairs}))
    assert texts(grading(hand)) == [("No. 70", "2"), ("1.2", "3"), ("No. 60", "8")]
    expect(part(grading(hand), "50")).to_have_value("21.4")
    expect(part(grading(hand), "pan")).to_have_value("0.2")
    part(grading(hand), "50").fill("21")
    hand.reads(answer("fineness", {"retained": pairs.replace("21.4", "21")}))


@pytest.mark.full
def test_openings_of_a_lot_survive_a_reload(hand, answer):
    lots = [{"kg": "30", "retained": GIVEN}, {"kg": "10", "retained": {"pan": "1", "0.8 mm": "4"}}]
    hand.open("blend").rows("lots", [{"kg": "30"}, {"kg": "10"}]).type({"target_clay_pct_dry": "7"})
    hand.parts(of_lot(hand, 0), TYPED)
    for opening, held in OWN:
        add(of_lot(hand, 0), opening, held)
    part(of_lot(hand, 1), "pan").fill("1")
    add(of_lot(hand, 1), "0.8", "4")
    assert whole(hand, "lots") == lots
    told = answer("blend", {"lots": lots, "target_clay_pct_dry": "7"})
    hand.reads(told)
    expect(hand.page.locator("[data-answer] .given")).to_contain_text(
        "Lot 2: mass 10 kg, retained on each sieve (pan 1, 0.8 mm 4)"
    )
    hand.page.reload()
    hand.ready().reads(told)
    assert texts(of_lot(hand, 0)) == OWN
    assert texts(of_lot(hand, 1)) == [("0.8", "4")]
    hand.page.locator("[data-parts=lots] [data-add]").click()
    assert texts(of_lot(hand, 2)) == []


def remove_all(table):
    while own(table).count():
        at = own(table).count() - 1
        own(table).nth(at).locator("[data-remove-own]").click()
        if own(table).count() > at:
            own(table).nth(at).locator("[data-remove-own]").click()


@pytest.fixture(scope="module")
def fineness(browser, address, hand_on):
    """The page of fineness, opened once for all problems."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
    yield hand_on(context.new_page(), address).open("fineness")
    context.close()


@pytest.mark.parametrize(
    ("rows", "given", "why"),
    [
        ([("50", "3")], {"50 mm": "3"}, "is not an opening for sieving sand"),
        ([("fine", "3")], {"fine": "3"}, "“fine” does not name a sieve"),
        ([("", "3")], {"": "3"}, "one sieve has no name"),
        ([("0,8", "")], {"0,8 mm": ""}, "0.8 mm: what it holds"),
        ([("0,8", "a lot")], {"0,8 mm": "a lot"}, "0.8 mm: what it holds"),
        ([("0.3", "3")], {"50": "21,4", "0.3 mm": "3"}, "No. 50 is given twice"),
        ([("0.8", "3"), ("0.8", "4")], [["50", "21,4"], ["0.8 mm", "3"], ["0.8 mm", "4"]], "0.8 mm is given twice"),
    ],
)
def test_a_problem_is_shown_at_the_field_and_the_input_is_kept(fineness, rows, given, why, answer):
    hand = fineness
    remove_all(grading(hand))
    hand.parts(grading(hand), {"50": "21,4"})
    for opening, held in rows:
        add(grading(hand), opening, held)
    asked = {"50": "21,4", **given} if isinstance(given, dict) else given
    [refused] = answer("fineness", {"retained": asked})["problems"]
    assert why in refused["message"]
    expect(problem(hand)).to_have_text(refused["message"])
    assert whole(hand) == asked


@pytest.mark.full
def test_a_problem_is_shown_again_after_a_reload(hand, answer):
    hand.open("fineness").parts(grading(hand), {"50": "21,4"})
    add(grading(hand), "fine", "3")
    [refused] = answer("fineness", {"retained": {"50": "21,4", "fine": "3"}})["problems"]
    hand.page.reload()
    hand.ready()
    expect(problem(hand)).to_have_text(refused["message"])
    assert texts(grading(hand)) == [("fine", "3")]


def test_an_empty_row_counts_as_nothing_and_is_removed_at_once(hand, answer):
    sieved(hand)
    table = grading(hand)
    table.get_by_role("button", name="A sieve of my own").click()
    hand.reads(answer("fineness", {"retained": GIVEN}))
    own(table).last.get_by_role("button", name="Remove").click()
    expect(own(table)).to_have_count(len(OWN))
    expect(table.get_by_role("button", name="A sieve of my own")).to_be_focused()


def test_a_filled_row_is_removed_at_the_second_tap_and_the_others_stay(hand, answer):
    sieved(hand)
    table = grading(hand)
    button = own(table).nth(1).locator("[data-remove-own]")
    button.click()
    expect(button).to_have_text("Tap again")
    expect(own(table)).to_have_count(len(OWN))
    button.click()
    left = {key: held for key, held in GIVEN.items() if key != "250 um"}
    hand.reads(answer("fineness", {"retained": left}))
    assert texts(table) == [OWN[0], OWN[2]]
    expect(own(table).locator("[data-own-name]")).to_have_text(["Sieve of my own 1", "Sieve of my own 2"])


def test_clearing_removes_the_rows_and_undo_restores_them(hand, answer):
    sieved(hand).reads(answer("fineness", {"retained": GIVEN}))
    hand.page.locator("[data-deed=clear]").click()
    expect(own(grading(hand))).to_have_count(0)
    assert whole(hand) is None
    hand.page.get_by_role("button", name="Bring back what stood here").click()
    hand.reads(answer("fineness", {"retained": GIVEN}))
    assert texts(grading(hand)) == OWN


@pytest.mark.parametrize("width", [320, 390])
@pytest.mark.parametrize("job", ["fineness", "blend"])
def test_a_row_fits_a_thumb_and_the_screen(width, job, still_hand):
    still_hand.page.set_viewport_size({"width": width, "height": 844})
    still_hand.open(job)
    table = grading(still_hand) if job == "fineness" else of_lot(still_hand, 0)
    add(table, "1/16 in", "12,5")
    places = [box.bounding_box() for box in own(table).locator("button, .box").all()]
    places.append(table.locator("[data-add-own]").bounding_box())
    assert min(place["height"] for place in places) >= 48
    assert all(place["x"] >= 0 and place["x"] + place["width"] <= width for place in places)
    for box in own(table).locator("input").all():
        assert box.evaluate("box => box.scrollWidth <= box.clientWidth")
    assert still_hand.page.evaluate("() => document.documentElement.scrollWidth") <= width
