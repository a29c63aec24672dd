"""The day of the pour: charts drawn from the answer, a list to tick, and clocks that survive closing the page."""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from effort import only_long
from playwright.sync_api import expect

JOBS = ("pour", "burnout")
LINES = (*JOBS, "facing", "season")
"""Jobs with charts of lines and limits alone, whose worked examples need no book."""
CHARTED = (*LINES, "dry")
"""And one with a band around its line."""
THREE_FIGURES = 0.0051
POUR_AT = datetime(2031, 3, 4, 9, 30, tzinfo=UTC)
ENDS = """svg => Array.from(svg.querySelectorAll(":scope > path.chart-line"), path => [path.getPointAtLength(0),
    path.getPointAtLength(path.getTotalLength())].map(({ x, y }) => [x, y]))"""
LIMIT_ENDS = """svg => Array.from(svg.querySelectorAll(":scope > path.chart-limit"), path => {
    const { x, y } = path.getPointAtLength(0); return [x, y]; })"""


def link_of(hand, job, inputs):
    return f"{hand.base}{job}/#" + "&".join(
        f"{word}={text.replace(' ', '+').replace('%', '%25')}" for word, text in inputs.items()
    )


@pytest.fixture
def answered(hand, jobs, answer):
    """A page that has answered the worked example's inputs as typed by a person, and the library's own answer."""

    def open_(job, on=hand):
        native = answer(job, jobs[job]["example"])
        assert native["ok"]
        on.page.goto(link_of(on, job, jobs[job]["example"]))
        on.ready()
        uncover(on.page)
        on.reads(native)
        unfold_charts(on.page)
        return on.page, native

    return open_


def uncover(page):
    page.locator("[data-answer][data-whose=mine]").wait_for(state="attached")
    if page.locator("[data-read]").is_visible():
        page.locator("[data-read]").click()


def unfold_charts(page):
    """Open the charts of an answer, and the worked example if they are its."""
    page.evaluate("""() => document.querySelectorAll("[data-example-fold], [data-folded=charts]").forEach(
        folded => { folded.open = true; })""")


def with_key(answer, jobs, key):
    """The first job whose worked example has something under the key, and its answer."""
    for job in JOBS:
        native = answer(job, jobs[job]["example"])
        if native[key]:
            return job, native
    raise AssertionError(f"no job gives {key}")


def number(text):
    return float(text.replace("\u2009", "").replace("\u2212", "-"))


def rows_of(chart):
    """Every x of a chart in order, with each line's y there, or None."""
    columns = [dict(line["points"]) for line in chart["series"]]
    return [(x, [column.get(x) for column in columns]) for x in sorted({x for column in columns for x in column})]


def check_table(figure, chart):
    assert figure.locator("thead th").count() == 1 + len(chart["series"])
    assert figure.locator("thead th").all_text_contents()[1:] == [line["label"] for line in chart["series"]]
    cells = figure.locator("tbody tr").evaluate_all(
        "rows => rows.map(row => Array.from(row.cells, c => c.textContent))"
    )
    rows = rows_of(chart)
    assert len(cells) == len(rows) > 1
    for (x, ys), (shown_x, *shown_ys) in zip(rows, cells, strict=True):
        for value, text in zip((x, *ys), (shown_x, *shown_ys), strict=True):
            if value is None:
                assert text == ""
            else:
                assert number(text) == pytest.approx(value, rel=THREE_FIGURES)
    assert figure.locator("[data-limits] > li").count() == len(chart["limits"])


def check_straight(pairs):
    """Check that pixels are one linear function of the numbers for all pairs."""
    values, pixels = np.array(pairs).T
    fit = np.polyfit(values, pixels, 1)
    assert np.abs(np.polyval(fit, values) - pixels).max() < 1
    return fit[0]


@pytest.mark.parametrize("job", LINES)
def test_each_chart_has_a_line_for_each_series_and_a_table(job, answered):
    page, native = answered(job)
    figures = page.locator("[data-charts] > [data-chart]")
    expect(figures).to_have_count(len(native["charts"]))
    for at, chart in enumerate(native["charts"]):
        figure = figures.nth(at)
        expect(figure.locator("figcaption")).to_have_text(chart["title"])
        expect(figure.locator("[data-slot=sentence]")).to_have_text(chart["sentence"])
        drawn = figure.locator("svg[role=img]")
        expect(drawn.locator("> path.chart-line")).to_have_count(len(chart["series"]))
        expect(drawn.locator("> path.chart-limit")).to_have_count(len(chart["limits"]))
        expect(drawn.locator("title")).to_have_text(chart["title"])
        check_table(figure, chart)


def test_the_lines_of_charts_match_their_numbers(answered, answer, jobs):
    job, native = with_key(answer, jobs, "charts")
    page, _ = answered(job)
    for at, chart in enumerate(native["charts"]):
        drawn = page.locator("[data-charts] svg[role=img]").nth(at)
        drawn.wait_for()
        across, up = [], []
        for line, ends in zip(chart["series"], drawn.evaluate(ENDS), strict=True):
            for (x, y), (left, top) in zip((line["points"][0], line["points"][-1]), ends, strict=True):
                across.append((x, left))
                up.append((y, top))
        for limit, (left, top) in zip(chart["limits"], drawn.evaluate(LIMIT_ENDS), strict=True):
            (across if limit["axis"] == "x" else up).append((limit["at"], left if limit["axis"] == "x" else top))
        assert check_straight(across) > 0
        assert check_straight(up) < 0


def test_lines_differ_by_dash_and_by_name(answered, answer, jobs):
    job, native = with_key(answer, jobs, "charts")
    page, _ = answered(job)
    for at, chart in enumerate(native["charts"]):
        drawn = page.locator("[data-charts] svg[role=img]").nth(at)
        drawn.wait_for()
        dashes = drawn.locator("> path.chart-line").evaluate_all(
            "lines => lines.map(line => getComputedStyle(line).strokeDasharray)"
        )
        assert len(set(dashes)) == len(chart["series"])
        names = [" ".join(name.split()) for name in drawn.locator(".chart-label text").evaluate_all(NAMES)]
        assert sorted(names) == sorted(entry["label"] for entry in chart["series"] + chart["limits"])


NAMES = "texts => texts.map(text => Array.from(text.children, row => row.textContent).join(' '))"


@pytest.mark.parametrize("job", [*CHARTED[:2], *only_long(*CHARTED[2:])])
def test_no_name_in_a_chart_is_cut_off(job, answered, hand):
    for width in (320, 390, 1280):
        hand.page.set_viewport_size({"width": width, "height": 844})
        page, native = answered(job)
        for at in range(len(native["charts"])):
            drawn = page.locator("[data-charts] svg[role=img]").nth(at)
            names_within(drawn)
            up = drawn.locator(".chart-grid text").all_text_contents()
            assert len(up) == len(set(up)) > 1, "two numbers along an axis look the same"


def names_within(drawn):
    frame = drawn.bounding_box()
    for text in drawn.locator("text").all():
        box = text.bounding_box()
        assert box["x"] >= frame["x"] - 1
        assert box["x"] + box["width"] <= frame["x"] + frame["width"] + 8


def test_the_chart_of_the_worked_example_is_a_table_without_javascript(answer, jobs, new_context, address):
    job, native = with_key(answer, jobs, "charts")
    page = new_context(java_script_enabled=False).new_page()
    page.goto(f"{address}{job}/")
    for at, chart in enumerate(native["charts"]):
        figure = page.locator("[data-charts] > [data-chart]").nth(at)
        expect(figure.locator("[data-slot=sentence]")).to_have_text(chart["sentence"])
        check_table(figure, chart)


def test_the_chart_of_the_worked_example_is_drawn_before_any_input(answer, jobs, hand):
    job, native = with_key(answer, jobs, "charts")
    page = hand.open(job, ready=False).page
    unfold_charts(page)
    lines = sum(len(chart["series"]) for chart in native["charts"])
    expect(page.locator("[data-charts] svg > path.chart-line")).to_have_count(lines)


def test_a_page_without_a_chart_does_not_load_the_drawing_library(page, address):
    asked = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(f"{address}mix/")
    page.locator("html[data-engine=ready]").wait_for(state="attached")
    assert [url for url in asked if "chart-drawing" in url] == []


@pytest.mark.breaks
def test_without_the_drawing_library_the_table_is_open(answer, jobs, page, address):
    job, _ = with_key(answer, jobs, "charts")
    page.route("**/chart-drawing-*.js", lambda route: route.abort())
    page.goto(f"{address}{job}/")
    unfold_charts(page)
    expect(page.locator("[data-chart] table").first).to_be_visible()


def test_ticks_survive_a_reload_until_they_are_cleared(answered, answer, jobs):
    job, native = with_key(answer, jobs, "checklist")
    page, _ = answered(job)
    boxes = page.locator("[data-check]")
    to_tick = [item for item in native["checklist"] if item["tone"] != "go"]
    stops = [item for item in to_tick if item["tone"] == "stop"]
    expect(page.locator("[data-list=checklist] > li")).to_have_count(len(native["checklist"]))
    expect(boxes).to_have_count(len(to_tick))
    assert page.locator("[data-list=checklist] [data-slot=words]").all_text_contents() == [
        item["text"] for item in native["checklist"]
    ]
    left = page.locator("[data-checks-left]")
    expect(left).to_have_text(
        f"{len(to_tick)} of {len(to_tick)} still to tick" + (": do not pour yet." if stops else ".")
    )
    boxes.first.check()
    page.reload()
    uncover(page)
    expect(boxes.first).to_be_checked()
    assert sum(box.is_checked() for box in boxes.all()) == 1
    for box in boxes.all():
        box.check()
    expect(left).to_have_text("All ticked.")
    page.locator("[data-clear-ticks]").click()
    assert not any(box.is_checked() for box in boxes.all())
    page.reload()
    uncover(page)
    assert not any(box.is_checked() for box in boxes.all())


def test_a_tick_falls_when_its_figure_changes_and_does_not_come_back(answered, answer, jobs, hand):
    """A point's text has the weight to put on in it; a lighter cope changes it."""
    page, before = answered("pour")
    after = answer("pour", jobs["pour"]["example"] | {"cope_kg": "5"})
    texts = [[item["text"] for item in native["checklist"] if item["tone"] != "go"] for native in (before, after)]
    stays = [text for text in texts[0] if text in texts[1]]
    assert 0 < len(stays) < len(texts[0])
    boxes = page.locator("[data-check]")
    for box in boxes.all():
        box.check()
    hand.type({"cope_kg": "5"})
    hand.reads(after)
    uncover(page)
    assert [box.is_checked() for box in boxes.all()] == [text in stays for text in texts[1]]
    hand.type({"cope_kg": jobs["pour"]["example"]["cope_kg"]})
    hand.reads(before)
    uncover(page)
    assert [box.is_checked() for box in boxes.all()] == [text in stays for text in texts[0]]


def test_ticks_of_yesterday_are_gone(answered, answer, jobs):
    job, _ = with_key(answer, jobs, "checklist")
    page, _ = answered(job)
    page.locator("[data-check]").first.check()
    page.clock.set_fixed_time(datetime.now(UTC) + timedelta(hours=11))
    page.reload()
    uncover(page)
    expect(page.locator("[data-check]").first).to_be_checked()
    page.clock.set_fixed_time(datetime.now(UTC) + timedelta(hours=13))
    page.reload()
    uncover(page)
    expect(page.locator("[data-check]").first).not_to_be_checked()


def test_water_has_clocks_that_run_while_another_job_is_open(new_context, hand_on, address, answered):
    hand = hand_on(new_context(timezone_id="UTC").new_page(), address)
    hand.page.clock.install(time=POUR_AT)
    _, native = answered("temper", hand)
    hand.page.clock.pause_at(datetime.fromtimestamp(POUR_AT.timestamp() + 3600, UTC))
    hand.page.clock.set_system_time(POUR_AT)
    start = hand.page.locator("[data-answer] [data-clock-begin]")
    expect(start).to_have_text("Water is in: start the clocks")
    start.click()
    expect(hand.page.locator("[data-clocks] h3")).to_have_text("Water in at 09:30")
    hand.page.goto(f"{address}flask/")
    hand.page.goto(f"{address}temper/")
    expect(hand.page.locator("[data-clocks] h3")).to_have_text("Water in at 09:30")
    assert times(hand.page) == [clock_text(timer["after_s"]) for timer in native["timers"]]


def test_ticks_are_not_part_of_an_answer_or_a_link(new_context, hand_on, address, answered, answer, jobs):
    job, native = with_key(answer, jobs, "checklist")
    context = new_context(permissions=["clipboard-read", "clipboard-write"])
    hand = hand_on(context.new_page(), address)
    page, _ = answered(job, hand)

    def link():
        page.locator("[data-deed=link]").click()
        expect(page.locator("[data-deed-said]")).to_have_text("Copied.")
        return page.evaluate("() => navigator.clipboard.readText()")

    before = link()
    page.locator("[data-check]").first.check()
    assert link() == before
    hand.reads(native)


def clock_text(after_s):
    moment = datetime.fromtimestamp(POUR_AT.timestamp() + after_s, UTC)
    return f"at {moment:%H:%M}" + ("" if moment.date() == POUR_AT.date() else f" on {moment:%A}")


@pytest.fixture
def poured(answered, answer, jobs, new_context, hand_on, address):
    """A page whose clocks were started at a known time, and their timers."""
    job, native = with_key(answer, jobs, "timers")
    hand = hand_on(new_context(timezone_id="UTC").new_page(), address)
    hand.page.clock.install(time=POUR_AT)
    page, _ = answered(job, hand)
    page.clock.pause_at(datetime.fromtimestamp(POUR_AT.timestamp() + 3600, UTC))
    page.clock.set_system_time(POUR_AT)
    page.locator("[data-clock-begin]").click()
    return hand, job, native["timers"]


def times(page):
    return page.locator("[data-list=clocks] > li [data-slot=at]").all_text_contents()


def test_the_example_cannot_start_clocks(answer, jobs, hand):
    job, native = with_key(answer, jobs, "timers")
    page = hand.open(job).page
    expect(page.locator("[data-list=spans] > li")).to_have_count(len(native["timers"]))
    expect(page.locator("[data-clock-begin]")).to_be_hidden()


def test_clocks_count_from_the_pour_and_survive_reload_and_closing(poured):
    hand, job, timers = poured
    page = hand.page
    wanted = [clock_text(timer["after_s"]) for timer in timers]
    expect(page.locator("[data-clocks] [data-slot=since]")).to_have_text("at 09:30")
    assert times(page) == wanted
    expect(page.locator("[data-begin]")).to_be_hidden()
    page.reload()
    expect(page.locator("[data-clocks]")).to_be_visible()
    assert times(page) == wanted
    other = page.context.new_page()
    page.close()
    other.clock.set_system_time(POUR_AT)
    other.goto(f"{hand.base}{job}/")
    expect(other.locator("[data-clocks]")).to_be_visible()
    assert times(other) == wanted


def test_a_clock_announces_its_end_once(poured):
    hand, _, timers = poured
    page = hand.page
    first = min(timers, key=lambda timer: timer["after_s"])
    row = page.locator("[data-list=clocks] > li").nth(timers.index(first))
    said = page.locator("[data-clock-said][role=status]")
    expect(row.locator("[data-slot=left]")).to_have_text(re.compile(r"^in \d"))
    expect(said).to_have_text("")
    page.clock.set_system_time(datetime.fromtimestamp(POUR_AT.timestamp() + first["after_s"] + 1, UTC))
    page.clock.run_for(1_100)
    now = f"now: {first['label'][0].lower()}{first['label'][1:]}"
    expect(row.locator("[data-slot=left]")).to_have_text(now)
    expect(said).to_contain_text(now)
    page.evaluate("""() => { globalThis.changes = 0; new MutationObserver(seen => { globalThis.changes += seen.length; })
        .observe(document.querySelector("[data-clock-said]"), { childList: true, characterData: true, subtree: true }); }""")
    page.clock.run_for(5_000)
    assert page.evaluate("() => globalThis.changes") == 0
    page.reload()
    expect(row.locator("[data-slot=left]")).to_have_text(now)
    expect(said).to_have_text("")


def test_stopping_the_clocks_needs_a_second_tap(poured):
    page = poured[0].page
    stop = page.locator("[data-clock-stop]")
    stop.click()
    expect(stop).to_have_text("Tap again to stop the clocks")
    expect(page.locator("[data-clocks]")).to_be_visible()
    page.clock.run_for(21_000)
    expect(stop).to_have_text("Stop the clocks")
    stop.click()
    stop.click()
    expect(page.locator("[data-clocks]")).to_be_hidden()
    expect(page.locator("[data-clock-begin]")).to_be_visible()
    page.reload()
    uncover(page)
    expect(page.locator("[data-clocks]")).to_be_hidden()


def test_new_figures_change_the_times_and_keep_the_start(poured, jobs, answer):
    hand, job, timers = poured
    changed = other_timers(job, jobs[job]["example"], timers, answer)
    hand.page.clock.set_system_time(datetime.fromtimestamp(POUR_AT.timestamp() + 600, UTC))
    hand.page.goto(link_of(hand, job, changed))
    native = answer(job, changed)
    expect(hand.page.locator("[data-list=clocks] > li [data-slot=at]")).to_have_text(
        [clock_text(timer["after_s"]) for timer in native["timers"]]
    )
    expect(hand.page.locator("[data-clocks] [data-slot=since]")).to_have_text("at 09:30")


def other_timers(job, example, timers, answer):
    """The example with one figure changed that also changes the clock times."""
    for word, text in example.items():
        figure = re.match(r"[\d.]+", text)
        for factor in (2, 4, 0.5) if figure else ():
            inputs = example | {word: text.replace(figure[0], f"{float(figure[0]) * factor:g}", 1)}
            native = answer(job, inputs)
            if native["ok"] and [minutes(timer) for timer in native["timers"]] != [minutes(timer) for timer in timers]:
                return inputs
    raise AssertionError("no figure of the example moves a clock")


def minutes(timer):
    return timer["after_s"] // 60


def test_a_running_clock_is_shown_at_its_link_on_the_home_page(poured):
    hand, job, timers = poured
    first = min(timers, key=lambda timer: timer["after_s"])
    hand.page.goto(hand.base)
    expect(hand.page.locator(f"[data-door-state={job}]")).to_have_text(
        f"{first['label']} {clock_text(first['after_s'])}"
    )


def test_charts_and_clocks_work_without_a_network(new_context, hand_on, address, answered, answer, jobs):
    job, native = with_key(answer, jobs, "charts")
    context = new_context(keeps=True)
    hand = hand_on(context.new_page(), address).open(job)
    hand.page.locator("[data-offline-mark][data-offline=ready]").wait_for(state="attached", timeout=60_000)
    context.set_offline(True)
    page, _ = answered(job, hand)
    lines = sum(len(chart["series"]) for chart in native["charts"])
    expect(page.locator("[data-charts] svg > path.chart-line")).to_have_count(lines)
    if native["timers"]:
        page.locator("[data-clock-begin]").click()
        page.reload()
        expect(page.locator("[data-list=clocks] > li")).to_have_count(len(native["timers"]))
