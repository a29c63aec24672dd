"""Inputs with several parts are filled in box by box: lots of sand, materials on hand, the mass on each sieve."""

from __future__ import annotations

import json
import re

import pytest
from playwright.sync_api import expect

LOTS = [{"kg": "66 lb", "moisture_pct_wet": "2,5", "clay_pct_dry": "6,5"}, {"kg": "10"}]
TARGET = {"target_clay_pct_dry": "7,5"}
SAID = "Lot 1: mass 66 lb, moisture 2,5 %, live clay 6,5 %; Lot 2: mass 10 kg"
SIEVES = {"50": "21,4", "70": "42", "pan": "0,2"}
MATERIALS = [
    {"kind": "sand", "name": "river", "price_per_kg": "0,2"},
    {"kind": "clay", "price_per_kg": "1,5", "stock_kg": "3 lb"},
]


def cards(hand, word="lots"):
    return hand.page.locator(f"[data-parts={word}] [data-row]")


def part(card, name):
    return card.locator(f'[data-part="{name}"]')


def whole(hand, word="lots"):
    text = hand.box(word).input_value()
    return json.loads(text) if text else None


def blended(hand):
    """The blend page with two lots and a target typed in."""
    return hand.open("blend").rows("lots", LOTS).type(TARGET)


def native(answer, lots=LOTS):
    return answer("blend", {"lots": lots, **TARGET})


def test_lots_typed_box_by_box_are_answered(hand, answer):
    hand.open("blend")
    expect(cards(hand)).to_have_count(2)
    expect(hand.box("lots")).to_be_hidden()
    hand.rows("lots", LOTS).type(TARGET).reads(native(answer))
    assert whole(hand) == LOTS


def test_a_lot_is_named_by_its_labels(still_hand):
    page = still_hand.open("blend").page
    second = page.get_by_role("group", name="Lot 2")
    second.get_by_role("textbox", name=re.compile("^Mass ")).fill("12")
    expect(part(cards(still_hand).nth(1), "kg")).to_have_value("12")
    page.get_by_role("group", name="Lots of sand").get_by_role("button", name="Add a lot").press("Enter")
    expect(part(cards(still_hand).nth(2), "kg")).to_be_focused()


def test_a_unit_typed_in_a_small_box_replaces_its_own(still_hand):
    still_hand.open("blend")
    card = cards(still_hand).first
    unit = card.locator("[data-part=kg] + .unit")
    expect(unit).to_have_text("kg")
    part(card, "kg").fill("66 lb")
    expect(unit).to_be_hidden()
    part(card, "kg").fill("66")
    expect(unit).to_be_visible()


def test_lots_can_be_added_up_to_the_limit(still_hand):
    page = still_hand.open("blend").page
    most = int(page.locator("[data-rows=lots]").get_attribute("data-most"))
    add = page.locator("[data-parts=lots] [data-add]")
    for _ in range(most - 2):
        add.click()
    expect(cards(still_hand)).to_have_count(most)
    expect(add).to_be_hidden()
    cards(still_hand).last.locator("[data-remove]").click()
    expect(cards(still_hand)).to_have_count(most - 1)
    expect(add).to_be_visible()


def test_an_empty_lot_is_removed_at_once_a_filled_one_at_the_second_tap_the_last_one_never(hand, answer):
    blended(hand)
    hand.reads(native(answer))
    remove = cards(hand).first.locator("[data-remove]")
    remove.click()
    expect(cards(hand)).to_have_count(2)
    expect(remove).to_have_text("Tap again to remove")
    expect(remove).to_have_accessible_description("Lot 1")
    remove.click()
    expect(cards(hand)).to_have_count(1)
    hand.reads(native(answer, LOTS[1:]))
    expect(cards(hand).locator("[data-row-name]")).to_have_text("Lot 1")
    expect(cards(hand).locator("[data-remove]")).to_be_hidden()


def test_an_empty_lot_between_others_is_left_out_and_marked(hand, answer):
    hand.open("blend").rows("lots", [LOTS[0], {}, LOTS[1]]).type(TARGET).reads(native(answer))
    expect(cards(hand).locator("[data-row-name]")).to_have_text(["Lot 1", "Lot, left out while empty", "Lot 2"])


def test_the_folded_sieves_of_a_lot_are_answered(hand, answer):
    blended(hand)
    card = cards(hand).nth(1)
    expect(part(card, "pan")).to_be_hidden()
    card.locator("summary").click()
    hand.parts(card.locator("[data-table=retained]"), SIEVES)
    lots = [LOTS[0], {**LOTS[1], "retained": SIEVES}]
    assert whole(hand) == lots
    hand.reads(native(answer, lots))
    expect(hand.page.locator("[data-answer] .given")).to_contain_text(
        "retained on each sieve (No. 50 21,4, No. 70 42, pan 0,2)"
    )


def test_lots_survive_a_reload(hand, answer):
    blended(hand).rows("lots", [*LOTS, {"kg": "4"}]).reads(native(answer, [*LOTS, {"kg": "4"}]))
    hand.page.reload()
    hand.ready().reads(native(answer, [*LOTS, {"kg": "4"}]))
    expect(cards(hand)).to_have_count(3)
    expect(part(cards(hand).nth(0), "clay_pct_dry")).to_have_value("6,5")
    expect(part(cards(hand).nth(2), "kg")).to_have_value("4")


def test_the_card_shows_the_lots_in_words_and_a_link_restores_them(hand, answer, new_context, hand_on, address):
    blended(hand).reads(native(answer))
    given = hand.page.locator("[data-answer] .given")
    expect(given).to_contain_text(SAID)
    expect(given).not_to_contain_text("{")
    link = hand.link()
    other = hand_on(new_context().new_page(), address)
    other.page.goto(link)
    other.ready().reads(native(answer))
    assert whole(other) == LOTS
    expect(part(cards(other).first, "kg")).to_have_value("66 lb")


def test_a_link_with_a_lot_that_fits_no_box_shows_its_text(hand):
    lots = '[{"kg": "4", "colour": "red"}]'
    hand.page.goto(f"{hand.base}blend/#" + hand.page.evaluate("lots => new URLSearchParams({lots}).toString()", lots))
    hand.ready()
    expect(hand.box("lots")).to_be_visible()
    expect(hand.box("lots")).to_have_value(lots)
    expect(hand.page.locator("#problem-lots")).to_contain_text("colour")
    hand.box("lots").fill("")
    hand.box("lots").blur()
    expect(hand.box("lots")).to_be_hidden()
    expect(cards(hand)).to_have_count(2)


def test_clearing_empties_every_card_and_undo_restores_them(hand, answer):
    blended(hand).rows("lots", [*LOTS, {"kg": "4"}]).reads(native(answer, [*LOTS, {"kg": "4"}]))
    hand.page.locator("[data-deed=clear]").click()
    expect(cards(hand)).to_have_count(2)
    assert whole(hand) is None
    boxes = cards(hand).locator("[data-part]").all()
    assert boxes
    assert {box.input_value() for box in boxes} == {""}
    hand.page.get_by_role("button", name="Bring back what stood here").click()
    expect(cards(hand)).to_have_count(3)
    expect(part(cards(hand).nth(0), "kg")).to_have_value("66 lb")


@pytest.mark.parametrize(
    ("lots", "name"), [([{"kg": "5"}, {"kg": "a bucket"}], "lot 2"), ([{"clay_pct_dry": "6"}], "lot 1")]
)
def test_a_refused_lot_is_named_under_the_field(lots, name, hand, answer):
    hand.open("blend").rows("lots", lots).type(TARGET)
    refused = next(each["message"] for each in native(answer, lots)["problems"] if each["word"] == "lots")
    assert name in refused
    expect(hand.page.locator("#problem-lots")).to_have_text(refused)
    part(cards(hand).first, "kg").press("Enter")
    summary = hand.page.locator("[data-summary]")
    expect(summary).to_be_focused()
    summary.get_by_text(refused).click()
    expect(part(cards(hand).first, "kg")).to_be_focused()


def test_each_sieve_has_a_box_and_a_link_can_fill_them(hand, answer):
    hand.open("fineness").type({"retained": "50: 21,4; 70: 42; pan: 0,2"}).reads(
        answer("fineness", {"retained": SIEVES})
    )
    assert whole(hand, "retained") == SIEVES
    expect(hand.page.locator("[data-answer] .given")).to_contain_text("No. 50: 21,4; No. 70: 42; pan: 0,2")
    hand.page.goto(f"{hand.base}fineness/#retained=50%3A+3%2C5%3B+pan%3A+1")
    table = hand.page.locator("[data-parts=retained]")
    expect(part(table, "50")).to_have_value("3,5")
    expect(part(table, "70")).to_have_value("")
    hand.reads(answer("fineness", {"retained": "50: 3,5; pan: 1"}))


def test_materials_are_chosen_by_kind_and_answered(hand, answer, typed):
    page = hand.open("rebond").page
    page.locator("[data-more] > summary").click()
    expect(cards(hand, "materials")).to_have_count(1)
    hand.type(typed["rebond"]).rows("materials", MATERIALS)
    assert whole(hand, "materials") == MATERIALS
    hand.reads(answer("rebond", typed["rebond"] | {"materials": MATERIALS}))
    expect(page.locator("[data-answer] .given")).to_contain_text(
        "Material 1: kind sand, price per kilogram 0,2, name river; Material 2: kind clay"
    )


@pytest.mark.parametrize("job", ["blend", "fineness"])
def test_without_javascript_the_field_says_so(job, new_context, address):
    page = new_context(java_script_enabled=False).new_page()
    page.goto(f"{address}{job}/")
    said = ":is(.field[data-kind=rows], .field[data-kind=table]) .without-script"
    expect(page.locator(said)).to_be_visible()
    scripted = new_context().new_page()
    scripted.goto(f"{address}{job}/")
    expect(scripted.locator(said)).to_be_hidden()


@pytest.mark.parametrize(("width", "columns"), [(390, 3), (320, 1)])
def test_the_boxes_of_a_table_are_in_columns_and_large_enough_for_a_thumb(width, columns, still_hand):
    still_hand.page.set_viewport_size({"width": width, "height": 844})
    boxes = still_hand.open("fineness").page.locator("[data-parts=retained] .box")
    places = [box.bounding_box() for box in boxes.all()]
    assert len({round(place["x"]) for place in places}) == columns
    assert min(place["height"] for place in places) >= 48
