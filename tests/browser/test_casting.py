"""One casting on one sheet: begun with two answers, opened step by step with everything filled in, and kept with its ticks."""

from __future__ import annotations

import json

import pytest
from playwright.sync_api import expect

KEPT = "() => Object.entries(localStorage).filter(([name]) => name.startsWith('sandmix.casting.')).map(([, text]) => JSON.parse(text))"
PUT = """([key, casting]) => {
  localStorage.setItem(`sandmix.casting.${key}`, JSON.stringify(casting));
  localStorage.setItem('sandmix.casting-in-use', JSON.stringify(key));
}"""
KEEP_SHEET = "sheet => localStorage.setItem('sandmix.sheet.k1', JSON.stringify(sheet))"
FIGURES = {
    "metal": "aluminium",
    "box_mm": "160 x 90 x 30 mm",
    "casting_area_cm2": "420 cm²",
    "heap_kg": "45 kg",
    "moisture_pct_wet": "3.4 %",
    "clay_pct_dry": "6.4 %",
    "flasks": '[{"name": "small", "flask_length_mm": 290, "flask_width_mm": 200, "drag_depth_mm": 90, "cope_depth_mm": 90}]',
}


def casting(**parts):
    whole = {
        "format": "sandmix casting",
        "version": 1,
        "name": "Strap for the gate",
        "begun": "2027-03-10",
        "figures": FIGURES,
    }
    return (
        whole | {"own": {}, "pattern": {"name": "", "figures": {}}, "ticks": [], "clocks": [], "recorded": []} | parts
    )


def put(hand, whole, key="k1"):
    hand.page.goto(f"{hand.base}offline/")
    hand.page.evaluate(PUT, [key, whole])


def kept(hand):
    [only] = hand.page.evaluate(KEPT)
    return only


def sheet(hand):
    hand.page.goto(hand.base)
    return hand.page.locator("[data-casting]")


def rows(hand):
    """Label, state and main figure of each step on the sheet."""
    steps = hand.page.locator("[data-list=casting-steps] > li:not([data-before])")
    expect(steps.first).to_be_visible(timeout=30_000)
    return steps.evaluate_all(
        "rows => rows.map(row => ['label', 'state', 'figure'].map(slot => row.querySelector(`[data-slot=${slot}]`).textContent))"
    )


def seen(plan):
    """What the page keeps of a plan."""
    return {part: plan[part] for part in ("state", "lead", "remarks", "cautions", "records", "steps")} | {"at": 4e12}


def told(answer):
    """The same as the library's own plan says it; what to buy stands before the mixing that it is for."""
    steps = list(answer["steps"])
    buying = [at for at, step in enumerate(steps) if step["job"] == "shopping"]
    for at in buying:
        steps[at - 1 : at + 1] = reversed(steps[at - 1 : at + 1])
    return [
        [
            step["label"],
            step["stands"]["word"],
            f"{step['lead']['label']} {step['lead']['text']}" if "lead" in step else "",
        ]
        for step in steps
    ]


def test_two_answers_begin_a_casting_and_show_its_whole_day(hand, answer):
    hand.page.goto(hand.base)
    hand.page.locator("#field-box_mm").fill("160 x 90 x 30")
    hand.page.locator("[data-start] [data-submit]").click()
    whole = kept(hand)
    assert whole["figures"] == {"box_mm": {"value": "160 x 90 x 30", "unit": "mm"}}
    plan = answer("plan", {"casting": whole})
    assert rows(hand) == told(plan)
    expect(hand.page.locator("[data-casting] [data-slot=sentence]")).to_have_text(plan["lead"]["sentence"])
    expect(hand.page.locator("[data-casting-next]")).to_contain_text("Next: Mix new sand")
    expect(hand.page.locator("[data-list=casting-remarks]")).to_contain_text("300 × 300 mm")
    moulding, riddling = hand.page.locator("[data-list=casting-steps] > [data-before]").all()
    expect(moulding.locator("+ li")).to_contain_text("Pour")
    moulding.locator("summary").first.click()
    expect(moulding.get_by_role("link")).to_have_text(["Ramming and turning over", "Gating and feeding", "Venting"])
    expect(riddling.locator("+ li")).to_contain_text("The heap book")
    expect(riddling.locator(".cautions")).to_contain_text("silica")


def test_without_a_size_the_questions_say_what_is_missing_and_lose_nothing(hand):
    hand.page.goto(hand.base)
    hand.page.locator("#field-heap_kg").fill("45")
    hand.page.locator("[data-start] [data-submit]").click()
    expect(hand.page.locator("[data-start] [data-summary]")).to_contain_text("The size is missing")
    hand.page.reload()
    expect(hand.page.locator("#field-heap_kg")).to_have_value("45")
    assert hand.page.evaluate(KEPT) == []


def test_once_new_sand_is_recorded_its_page_leads_to_the_test(hand):
    put(hand, casting(figures={word: FIGURES[word] for word in ("metal", "box_mm", "flasks")}))
    sheet(hand)
    expect(hand.page.locator("[data-casting-next]")).to_have_text("Next: Mix new sand", timeout=30_000)
    hand.page.locator("[data-casting-next]").click()
    hand.ready()
    hand.page.locator("[data-write=mixed] [data-record-now]").click()
    expect(hand.page.locator("a.deed[data-casting-on]")).to_have_text("Next: Test and temper", timeout=30_000)
    expect(hand.box("clay_pct_dry")).to_have_value("7")


def test_the_two_halves_of_a_flask_have_one_depth_until_another_is_entered(hand):
    hand.page.goto(hand.base)
    row = hand.page.locator("[data-start] [data-row]").first
    drag, cope = (row.locator(f"[data-part={half}_depth_mm]") for half in ("drag", "cope"))
    for text in ("90", "95"):
        drag.fill(text)
        expect(cope).to_have_value(text)
    assert json.loads(hand.box("flasks").input_value()) == [{"drag_depth_mm": "95", "cope_depth_mm": "95"}]
    cope.click()
    hand.page.wait_for_function("() => getSelection().toString() === '95'")
    hand.page.keyboard.type("80")
    drag.fill("100")
    expect(cope).to_have_value("80")


def test_a_step_opens_filled_in_and_what_is_changed_there_flows_back(hand, answer):
    put(hand, casting())
    sheet(hand)
    plan = answer("plan", {"casting": casting()})
    assert rows(hand) == told(plan)
    hand.page.locator("[data-list=casting-steps] a", has_text="Fill the flask").click()
    hand.ready()
    expect(hand.page.locator("[data-for-casting]")).to_contain_text("Strap for the gate")
    expect(hand.box("flask_length_mm")).to_have_value("290")
    origin = hand.page.locator("[data-field=flask_length_mm] [data-slot=origin]")
    expect(origin).to_have_text("From the flask “small”")
    expect(hand.box("heap_kg")).to_have_value("45")
    hand.box("flask_length_mm").fill("300")
    field = hand.page.locator("[data-field=flask_length_mm]")
    expect(field.locator("[data-slot=origin]")).to_have_text("Yours. From the flask “small”: 290 mm")
    field.locator("[data-carried-act]").click()
    expect(hand.box("flask_length_mm")).to_have_value("290")
    hand.box("heap_kg").fill("40")
    hand.type({"rammed_density_kg_l": "1.6"})
    hand.page.wait_for_function("() => Object.values(localStorage).some(text => text.includes('rammed_density_kg_l'))")
    changed = kept(hand)
    assert changed["figures"]["heap_kg"] == {"value": "40", "unit": "kg"}, "the plan hands the heap on to every step"
    assert changed["own"] == {"flask": {"rammed_density_kg_l": {"value": "1.6", "unit": "kg/L"}}}
    sheet(hand)
    after = answer("plan", {"casting": changed})
    expect(hand.page.locator("[data-list=casting-steps] > li", has_text="Fill the flask")).to_contain_text(
        next(row[2] for row in told(after) if row[0] == "Fill the flask"), timeout=30_000
    )


def test_a_page_can_be_used_without_the_casting_and_then_leaves_it_alone(hand):
    put(hand, casting())
    hand.open("flask")
    expect(hand.page.locator("[data-for-casting]")).to_be_visible()
    hand.page.locator("[data-leave-casting]").click()
    hand.page.wait_for_load_state()
    hand.ready()
    expect(hand.page.locator("[data-for-casting]")).to_be_hidden()
    hand.box("flask_length_mm").fill("500")
    hand.page.wait_for_timeout(300)
    assert kept(hand) == casting()


def test_a_step_whose_figure_stands_in_a_closed_way_of_giving_is_answered(hand, answer):
    """The heap's moisture is carried in, while the form would open with a dried sample."""
    whole = casting()
    put(hand, whole)
    sheet(hand)
    rows(hand)
    hand.page.locator("[data-list=casting-steps] a", has_text="Test and temper").click()
    hand.ready()
    step = next(step for step in answer("plan", {"casting": whole})["steps"] if step["job"] == "temper")
    expect(hand.page.locator("[data-bar] [data-slot=text]")).to_have_text(step["lead"]["text"])


def test_a_stop_locks_the_pour_on_the_sheet(hand):
    put(hand, casting(figures=FIGURES | {"moisture_pct_wet": "7.5 %"}))
    sheet(hand)
    rows(hand)
    pour = hand.page.locator("[data-list=casting-steps] > li:not([data-before])", has_text="Pour")
    expect(pour.first).to_contain_text("locked")
    assert pour.first.locator("a").get_attribute("href") is None
    expect(hand.page.locator("[data-casting-next]")).to_contain_text("Next: Test and temper")
    expect(hand.page.locator("[data-casting] > * [data-slot=state]").first).to_have_text("stop")
    open_cautions = hand.page.locator("[data-list=casting-cautions] details[open]")
    expect(open_cautions).to_have_count(1)
    expect(open_cautions).to_contain_text("Steam")


def test_ticks_belong_to_one_casting(hand):
    put(hand, casting())
    hand.open("pour")
    box = hand.page.locator("[data-answer][data-whose=mine] [data-check]").first
    box.check()
    hand.page.wait_for_function("() => Object.values(localStorage).some(text => text.includes('\"ticks\":[{'))")
    assert kept(hand)["ticks"][0]["job"] == "pour"
    hand.page.evaluate(PUT, ["k2", casting(name="Ring")])
    hand.open("pour")
    expect(hand.page.locator("[data-answer][data-whose=mine] [data-check]").first).not_to_be_checked()


def test_once_the_list_is_ticked_the_way_leads_to_the_one_record_of_the_cast(hand):
    put(hand, casting())
    sheet(hand)
    rows(hand)
    hand.page.locator("[data-write=joined] [data-record-now]").click()
    way = hand.page.locator("[data-casting-next]")
    cast = hand.page.locator("[data-write=poured] [data-record-now]")
    expect(way).to_contain_text("Next: Test and temper", timeout=30_000)
    expect(cast).to_have_count(0)
    hand.open("temper").type({"sample_wet_g": "500", "sample_dry_g": "483"})
    hand.page.locator("[data-write=measured] [data-record-now]").click()
    on = hand.page.locator("a.deed[data-casting-on]")
    expect(on).to_have_text("Next: Mould it", timeout=30_000)
    on.click()
    work = hand.page.locator("[data-list=casting-steps] > [data-before=pour]")
    closed = work.get_by_label("The mould is closed")
    expect(closed).to_be_visible()
    closed.check()
    expect(way).to_contain_text("Next: Pour")
    way.click()
    boxes = hand.page.locator("[data-answer][data-whose=mine] [data-check]")
    expect(boxes.first).to_be_visible(timeout=30_000)
    expect(on).to_have_text("Back to the casting")
    assert not hand.box("casting_volume_cm3").is_visible(), "the list comes first, and the form is filled in"
    hand.page.locator("[data-unfold]").click()
    expect(hand.box("casting_volume_cm3")).to_be_visible()
    for box in boxes.all():
        box.check()
    expect(on).to_have_text("Next: Record this cast")
    on.click()
    expect(way).to_contain_text("Next: Record this cast")
    expect(cast).to_have_class("deed")
    cast.click()
    expect(hand.page.locator("[data-write=poured] [data-slot=recorded]")).to_contain_text("Saved.")
    expect(way).to_contain_text("Next: After the pour", timeout=30_000)
    past = [state for _, state, figure in rows(hand) if not figure]
    assert past == ["past"] * 6, "the steps up to the pour, without figures of a heap that has changed since"
    hand.open("burnout")
    expect(
        hand.page.locator("[data-answer][data-whose=mine] [data-list=shown] [data-slot=range]:not(:empty)").first
    ).to_be_attached()
    expect(hand.page.locator("[data-record-now]")).to_have_count(0)


def test_the_way_on_can_be_read_while_a_thumb_is_on_it(hand):
    put(hand, casting())
    sheet(hand)
    rows(hand)
    way = hand.page.locator("[data-casting-next]")
    for touched in (way.hover, way.focus):
        touched()
        ink, ground = way.evaluate("way => [getComputedStyle(way).color, getComputedStyle(way).backgroundColor]")
        assert ink != ground


def test_a_finished_casting_is_cast_again_without_what_belonged_to_the_day(hand):
    put(hand, casting(ticks=[{"job": "pour", "text": "The way is clear.", "at": 1}]))
    sheet(hand)
    rows(hand)
    finish = hand.page.locator("[data-casting-deed=finish]")
    finish.click()
    finish.click()
    expect(hand.page.locator("[data-casting]")).to_be_hidden()
    hand.page.locator("[data-castings] summary").click()
    hand.page.locator("[data-castings] [data-casting-deed=again]").click()
    expect(hand.page.locator("[data-casting]")).to_be_visible(timeout=30_000)
    new = next(each for each in hand.page.evaluate(KEPT) if not each["finished"])
    assert new["name"] == "Strap for the gate (2)"
    assert new["ticks"] == []
    assert new["figures"] == {
        word: text for word, text in FIGURES.items() if word in ("metal", "box_mm", "casting_area_cm2", "flasks")
    }


def test_an_export_carries_the_castings_and_an_import_checks_each(hand, tmp_path):
    put(hand, casting())
    hand.page.goto(f"{hand.base}heap/")
    hand.ready()
    damaged = tmp_path / "newer.json"
    damaged.write_text(
        json.dumps({"format": "sandmix books", "version": 3, "books": [], "castings": [casting(version=9)]})
    )
    hand.page.locator("[data-import]").set_input_files(damaged)
    expect(hand.page.locator("[data-file-said]")).to_contain_text("a newer sandmix wrote it")
    other = tmp_path / "other.json"
    other.write_text(json.dumps(casting(name="Ring")))
    hand.page.locator("[data-import]").set_input_files(other)
    expect(hand.page.locator("[data-file-said]")).to_contain_text("Taken over: Ring")
    assert sorted(each["name"] for each in hand.page.evaluate(KEPT)) == ["Ring", "Strap for the gate"]


def test_a_step_shows_what_the_plan_said_of_it_before_the_calculator_is_here(still_context, address, answer):
    page = still_context().new_page()
    page.goto(f"{address}offline/")
    page.evaluate(PUT, ["k1", casting()])
    plan = answer("plan", {"casting": casting()})
    page.evaluate(KEEP_SHEET, seen(plan))
    page.goto(f"{address}flask/")
    step = next(step for step in plan["steps"] if step["job"] == "flask")
    expect(page.locator("[data-bar] [data-slot=text]")).to_have_text(step["lead"]["text"])
    expect(page.locator("[data-bar] [data-slot=state]")).to_have_text(step["state"]["word"])


FROM_NOTHING = {"box_mm": "160 x 90 x 30 mm", "casting_kg": "1 kg", "flasks": FIGURES["flasks"]}


@pytest.mark.parametrize(
    ("width", "figures"),
    [
        (320, FIGURES),
        (390, FIGURES),
        pytest.param(390, FROM_NOTHING, id="the first sand"),
        pytest.param(390, FIGURES | {"heap_kg": "15 kg"}, id="a heap that is too small"),
    ],
)
def test_the_sheet_fits_two_screens_of_a_phone(still_context, address, answer, width, figures):
    page = still_context(viewport={"width": width, "height": 844}).new_page()
    page.goto(f"{address}offline/")
    page.evaluate(PUT, ["k1", casting(figures=figures)])
    plan = answer("plan", {"casting": casting(figures=figures)})
    page.evaluate(KEEP_SHEET, seen(plan))
    page.goto(address)
    expect(page.locator("[data-list=casting-steps] > li").first).to_be_visible()
    height = page.locator("[data-casting]").evaluate("sheet => sheet.offsetHeight")
    assert height <= 2 * 844
    assert page.evaluate("document.documentElement.scrollWidth") <= width
