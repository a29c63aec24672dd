"""The settings: kept at once, worn by every page, and the same for the hand that holds the phone on either side."""

from __future__ import annotations

import json

import pytest
from measures import SMALL_TARGETS, TOO_WIDE
from playwright.sync_api import expect

from sandmix.doors.facade import call

ROOT_PX = "() => parseFloat(getComputedStyle(document.documentElement).fontSize)"
USUAL_PX = 20
"""The size of 1 rem that the theme makes of a browser's usual 16 px."""
KEPT = "() => JSON.parse(localStorage['sandmix.settings'] ?? '{}')"
SIDES = """(word) => [...document.querySelectorAll(`[data-stepper="${word}"]`)]
    .sort((a, b) => a.getBoundingClientRect().x - b.getBoundingClientRect().x).map((button) => button.textContent)"""
HELP_AND_LABEL = """(word) => ["[data-help]", "label"].map((part) =>
    document.querySelector(`[data-field="${word}"] ${part}`).getBoundingClientRect().x)"""
EARLY = """new MutationObserver((_, watcher) => {
    if (!document.body) return;
    globalThis.atFirst = { ...document.documentElement.dataset };
    watcher.disconnect();
}).observe(document, { childList: true, subtree: true });"""
"""A script for a page: it notes what the page wears when its body begins."""


@pytest.fixture
def still(still_context, address):
    """A page of the settings whose calculator never starts."""
    page = still_context().new_page()
    page.goto(f"{address}settings/")
    page.locator("[data-settings][data-listens]").wait_for()
    return page


def tap(page, setting, value):
    page.locator(f'[data-setting={setting}] .chip:has(input[value="{value}"])').click()


def test_look_text_size_and_hand_are_worn_at_once_and_by_the_next_page_from_its_start(still, address):
    page = still
    tap(page, "look", "night")
    tap(page, "text", "larger")
    tap(page, "hand", "left")
    expect(page.locator("html")).to_have_attribute("data-look", "night")
    assert page.evaluate(ROOT_PX) == pytest.approx(1.3 * USUAL_PX)
    page.add_init_script(EARLY)
    page.goto(f"{address}temper/")
    assert {"look": "night", "text": "larger", "hand": "left"}.items() <= page.evaluate("() => atFirst").items()
    assert page.evaluate(SIDES, "heap_kg") == ["+", "−"]
    help_x, label_x = page.evaluate(HELP_AND_LABEL, "heap_kg")
    assert help_x < label_x
    page.goto(f"{address}settings/")
    expect(page.locator("[data-setting=text] input:checked")).to_have_value("larger")
    tap(page, "text", "")
    tap(page, "hand", "")
    assert page.evaluate(KEPT) == {}
    assert page.evaluate(ROOT_PX) == USUAL_PX
    page.goto(f"{address}temper/")
    assert page.evaluate(SIDES, "heap_kg") == ["−", "+"]


def test_the_look_of_the_device_counts_again_when_it_is_chosen_and_the_button_of_the_header_is_followed(still):
    page = still
    page.emulate_media(color_scheme="dark")
    tap(page, "look", "paper")
    expect(page.locator("html")).to_have_attribute("data-look", "paper")
    tap(page, "look", "")
    expect(page.locator("html")).to_have_attribute("data-look", "night")
    page.locator("[data-look-switch]").click()
    expect(page.locator("[data-setting=look] input:checked")).to_have_value("contrast")


def test_the_largest_text_fits_a_small_phone_because_the_narrow_layout_begins_earlier(still, address):
    page = still
    tap(page, "text", "largest")
    for name in ("settings", "temper", "heap", ""):
        page.goto(f"{address}{name}/" if name else address)
        assert page.evaluate(ROOT_PX) == 1.5 * USUAL_PX
        for width in (320, 390):
            page.set_viewport_size({"width": width, "height": 700})
            needs, has = page.evaluate(TOO_WIDE)
            assert needs <= has, (name, width)
    page.goto(f"{address}temper/")
    assert page.evaluate(SMALL_TARGETS) == []


def test_the_settings_are_in_the_menu_and_on_a_wide_screen_in_the_header(still):
    expect(still.locator("#all-pages a[aria-current]")).to_have_text("Settings")
    expect(still.locator(".head-settings")).to_be_hidden()
    still.set_viewport_size({"width": 1280, "height": 800})
    expect(still.locator(".head-settings")).to_be_visible()


def wishes(page, group, label):
    page.locator(f"[data-wishes={group}] .chip", has_text=label).click()


def test_units_open_the_boxes_show_carried_figures_and_write_the_answer_and_a_box_can_differ(hand, address):
    page = hand.page
    hand.open("flask").type({"heap_kg": "45 ± 0.5"})
    page.goto(f"{address}settings/")
    page.locator("[data-settings][data-listens]").wait_for()
    wishes(page, "units", "Inch, pound")
    page.locator(".setting-group .more > summary").first.click()
    wishes(page, "unit-length", "cm")
    expect(page.locator("[data-wishes=units] input:checked")).to_have_count(0)
    wish = page.evaluate(KEPT)["shown_in"]
    assert (wish["kg"], wish["mm"], wish["°C"]) == ("lb", "cm", "°F")

    hand.open("temper")
    expect(hand.box("heap_kg")).to_have_value("99.2 ± 1.1")
    expect(page.locator("#unit-heap_kg")).to_have_text("lb")
    expect(page.locator("[data-field=heap_kg] [data-in-unit=lb]")).to_be_attached()
    assert page.locator("[data-field=heap_kg] [data-in-unit=kg]").get_attribute("hidden") is not None
    hand.unit("sample_dry_g", "g")
    hand.type({"sample_wet_g": "14", "sample_dry_g": "388"})
    page.locator("[data-answer][data-whose=mine]").wait_for(state="attached")
    asked = {
        "heap_kg": {"value": "45 ± 0.5", "unit": "kg"},
        "sample_wet_g": {"value": "14", "unit": "oz"},
        "sample_dry_g": {"value": "388", "unit": "g"},
    }
    answer = json.loads(call(json.dumps({"job": "temper", "inputs": asked, "shown_in": wish})))
    expect(page.locator("[data-bar] [data-slot=text]")).to_have_text(answer["lead"]["text"])
    assert answer["lead"]["text"].endswith((" oz", " lb"))
    hand.open("temper")
    expect(page.locator("#unit-sample_dry_g")).to_have_text("g")
    expect(page.locator("#unit-sample_wet_g")).to_have_text("oz")


def test_what_a_person_always_uses_stands_where_nothing_better_is_known_and_says_where_it_is_from(hand, address):
    page = hand.page
    page.goto(f"{address}settings/")
    page.locator("[data-settings][data-listens]").wait_for()
    hand.type({"clay_moisture_pct_wet": "8 ± 1", "mixer_kg": "12", "clay_activity_pct": "400"})
    refused = json.loads(
        call('{"job": "convert", "inputs": {"word": "clay_activity_pct", "given": "400 %", "to": "%"}}')
    )
    expect(page.locator("[data-problem=clay_activity_pct]")).to_have_text(refused["problems"][0]["message"])
    hand.box("clay_activity_pct").fill("")
    expect(page.locator("[data-problem=clay_activity_pct]")).to_be_hidden()
    assert set(page.evaluate(KEPT)["own"]) == {"clay_moisture_pct_wet", "mixer_kg"}

    hand.open("mix").type({"make_kg": "45", "clay_pct_dry": "7.5", "moisture_pct_wet": "3.4"})
    expect(hand.box("mixer_kg")).to_have_value("12")
    expect(page.locator("[data-field=mixer_kg] [data-slot=origin]")).to_have_text("From your settings")
    inputs = {
        "make_kg": "45 kg",
        "clay_pct_dry": "7.5 %",
        "moisture_pct_wet": "3.4 %",
        "clay_moisture_pct_wet": "8 ± 1 %",
        "mixer_kg": "12 kg",
    }
    answer = json.loads(call(json.dumps({"job": "mix", "inputs": inputs})))
    expect(page.locator("[data-bar] [data-slot=text]")).to_have_text(answer["lead"]["text"])
    hand.type({"mixer_kg": "15"})
    expect(page.locator("[data-field=mixer_kg] [data-slot=origin]")).to_have_text("Yours. From your settings: 12 kg")
    hand.open("rebond")
    expect(hand.box("clay_moisture_pct_wet")).to_have_value("8 ± 1")
    page.goto(f"{address}settings/")
    expect(hand.box("mixer_kg")).to_have_value("12")


def test_everything_goes_into_one_file_is_deleted_and_comes_back(hand, address, tmp_path):
    page = hand.page
    hand.open("temper").type({"heap_kg": "45"})
    page.goto(f"{address}settings/")
    page.locator("[data-settings][data-listens]").wait_for()
    tap(page, "hand", "left")
    tap(page, "look", "night")
    hand.type({"mixer_kg": "12"})
    before = page.evaluate("() => ({ ...localStorage })")

    page.locator("[data-delete-begin]").click()
    expect(page.locator("[data-delete-sure] > p").first).to_be_focused()
    with page.expect_download() as exported:
        page.locator("[data-delete-sure] [data-export-everything]").click()
    exported.value.save_as(tmp_path / "all.json")
    page.locator("[data-delete-all]").click()
    assert page.evaluate(KEPT)["hand"] == "left"
    with page.expect_navigation():
        page.locator("[data-delete-all]").click()
    page.locator("[data-settings][data-listens]").wait_for()
    assert page.evaluate("() => Object.keys(localStorage).filter((name) => name !== 'sandmix.tried')") == []
    expect(page.locator("[data-setting=hand] input:checked")).to_have_value("")

    damaged = json.loads((tmp_path / "all.json").read_text("utf-8"))
    damaged["device"]["entries"]["settings"]["shown_in"] = {"kg": "mm"}
    (tmp_path / "damaged.json").write_text(json.dumps(damaged), "utf-8")
    page.locator("[data-import]").set_input_files(tmp_path / "damaged.json")
    expect(page.locator("[data-file-said]")).to_contain_text("Nothing was taken over. Units to show: “mm” can't stand")
    page.locator("[data-import]").set_input_files(tmp_path / "all.json")
    page.locator("[data-asking] button", has_text="Take them over").click()
    expect(page.locator("[data-file-said]")).to_have_text("Taken over: the settings, what stands in the forms.")
    expect(page.locator("html")).to_have_attribute("data-hand", "left")
    expect(hand.box("mixer_kg")).to_have_value("12")
    for name in ("sandmix.settings", "sandmix.look", "sandmix.job.temper"):
        assert json.dumps(before[name]) == json.dumps(page.evaluate("name => localStorage[name]", name))
    tap(page, "look", "paper")
    page.locator("[data-import]").set_input_files(tmp_path / "all.json")
    expect(page.locator("[data-asking] input:checked")).to_have_count(1)
    expect(page.locator("[data-asking] input:checked")).to_have_value("keep")
    page.locator("[data-asking] .chip", has_text="Take it over").click()
    page.locator("[data-asking] button", has_text="Take them over").click()
    expect(page.locator("html")).to_have_attribute("data-look", "night")
    typed_since = before["sandmix.job.temper"].replace("45", "52")
    page.evaluate("text => { localStorage['sandmix.job.temper'] = text; }", typed_since)
    with page.expect_navigation():
        page.locator("[data-bring-back-import]").click()
    expect(page.locator("html")).to_have_attribute("data-look", "paper")
    assert page.evaluate("() => localStorage['sandmix.job.temper']") == typed_since


def test_settings_that_no_page_wrote_break_no_page_and_units_that_the_library_refuses_are_set_aside(hand, address):
    page = hand.page
    page.goto(f"{address}settings/")
    odd = {"text": "constructor", "hand": None, "own": None, "shown_in": None}
    for chosen in (odd, odd | {"text": {"toString": 1}}):
        page.evaluate("kept => { localStorage['sandmix.settings'] = JSON.stringify(kept); }", chosen)
        page.reload()
        page.locator("[data-settings][data-listens]").wait_for()
        assert page.evaluate(ROOT_PX) == USUAL_PX
    refused = {"shown_in": {"kg": "furlong"}, "own": {"mixer_kg": {"text": "12", "unit": "kg"}}}
    page.evaluate("kept => { localStorage['sandmix.settings'] = JSON.stringify(kept); }", refused)
    hand.open("temper").type(given := {"heap_kg": "55", "sample_wet_g": "500", "sample_dry_g": "488.5"})
    hand.reads(json.loads(call(json.dumps({"job": "temper", "inputs": given}))))
    expect(page.locator("[data-storage-notice]")).to_contain_text("set aside: the units that you chose")
    assert page.evaluate(KEPT) == {"own": refused["own"]}
    assert page.evaluate("() => JSON.parse(localStorage['sandmix.damaged.units'])") == refused["shown_in"]
