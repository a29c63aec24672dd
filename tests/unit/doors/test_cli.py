"""The command line, called from inside."""

import io
import json
import shlex
import sys

import pytest

from sandmix import __version__
from sandmix.asking.form import asks
from sandmix.doors import cli, spelling, terminal
from sandmix.doors.facade import call
from sandmix.jobs import JOBS
from sandmix.vocabulary import WORDS

EXAMPLES = [(job.name, dict(job.example)) for job in JOBS.values()]


def run(capsys, *arguments):
    status = cli.main(arguments)
    printed = capsys.readouterr()
    return status, printed.out, printed.err


def spelled(inputs):
    return [part for word, value in inputs.items() for part in (spelling.option(word), value)]


SPELLED = [
    ("heap_kg", "--heap"),
    ("sample_wet_g", "--sample-wet"),
    ("filler_l", "--filler"),
    ("flask_length_mm", "--flask-length"),
    ("pattern_volume_cm3", "--pattern-volume"),
    ("moisture_pct_wet", "--moisture-pct-wet"),
    ("spare_pct", "--spare-pct"),
    ("metal", "--metal"),
    ("titre_ml", "--titre"),
    ("pressure_cm", "--pressure"),
    ("projected_area_cm2", "--projected-area"),
    ("contact_w_m2k", "--contact"),
    ("pour_temp_c", "--pour-temp"),
    ("fill_time_s", "--fill-time"),
    ("opened_after_min", "--opened-after"),
    ("rested_h", "--rested"),
    ("strength_kpa", "--strength"),
    ("rammed_density_kg_l", "--rammed-density"),
    ("load_kg", "--load"),
    ("load_n", "--load-n"),
    ("strokes_per_100ml", "--strokes-per-100ml"),
]


@pytest.mark.parametrize(("word", "option"), SPELLED)
def test_an_option_is_the_word_without_its_unit(word, option):
    assert spelling.option(word) == option


def test_what_to_do_first_and_the_cards_are_printed(capsys):
    inputs = {"symptoms": "weak_squeeze; crumbling_edges; ever_more_water", "moisture_pct_wet": "4.4 %"}
    answer = json.loads(call(json.dumps({"job": "diagnose", "inputs": inputs})))
    status, out, _ = run(capsys, "diagnose", *spelled(inputs))
    assert status == 0
    flat = " ".join(out.split())
    assert f"First - {answer['first']['text']}" in flat
    assert all(f"- Until then, do not: {text}" in flat for text in answer["first"]["not_before"])
    for card in answer["cards"]:
        assert f"{card['title']}: {card['text']} - For it: " in flat
        assert all(f"- {side['name']}: {'; '.join(side['texts'])}" in flat for side in card["points"])


@pytest.mark.parametrize("option", ["--heap", "--heap-kg", "--heap_kg"])
def test_the_whole_word_always_works(capsys, option):
    status, out, _ = run(capsys, "temper", "--json", option, "40", "--moisture-pct-wet", "3")
    assert status == 0
    assert json.loads(out) == json.loads(
        call('{"job": "temper", "inputs": {"heap_kg": "40", "moisture_pct_wet": "3"}}')
    )


def test_every_unit_but_percent_and_newton_is_dropped():
    asked = {word: WORDS[word].unit for job in JOBS.values() for word in asks(job.form) if hasattr(WORDS[word], "unit")}
    kept = {unit for word, unit in asked.items() if unit and spelling.option(word) == "--" + word.replace("_", "-")}
    assert kept == {"%", "N"}


def test_a_spelling_that_is_the_name_of_another_word_belongs_to_that_word():
    """An event may have both ``metal`` and ``metal_kg``."""
    spelled = spelling.event_options()
    assert (spelled["metal"], spelled["metal_kg"]) == (("--metal",), ("--metal-kg",))
    assert len({option for options in spelled.values() for option in options}) == sum(map(len, spelled.values()))


def test_of_two_units_at_the_end_one_may_be_dropped():
    assert "--rammed-density-kg" in spelling.options("rammed_density_kg_l")


@pytest.mark.parametrize(("job", "inputs"), EXAMPLES)
def test_the_table_shows_the_headline_the_lead_and_every_answer(capsys, job, inputs):
    status, out, err = run(capsys, job, *spelled(inputs))
    answer = json.loads(call(json.dumps({"job": job, "inputs": inputs})))
    assert (status, err) == (0, "")
    flat = " ".join(out.split())
    assert flat.startswith(answer["headline"])
    assert answer["lead"]["label"].upper() in out
    for row in answer["shown"]:
        assert row["label"] in out
        assert row["text"] in flat
    for row in answer["todo"]:
        assert f"{row['amount']} {row['text']}".strip() in flat
    for caution in answer["cautions"]:
        assert caution.split(":")[0] in out


@pytest.mark.parametrize("columns", [34, 60, 80, 200])
@pytest.mark.parametrize(("job", "inputs"), EXAMPLES)
def test_no_line_is_longer_than_the_terminal_is_wide(capsys, monkeypatch, job, inputs, columns):
    monkeypatch.setenv("COLUMNS", str(columns))
    answer = json.loads(call(json.dumps({"job": job, "inputs": inputs})))
    _, out, _ = run(capsys, job, *spelled(inputs))
    commands = [f"sandmix {link['job']}" for link in answer["next"]]
    assert [line for line in out.splitlines() if len(line) > min(columns, terminal.WIDTH)] == []
    flat = " ".join(out.replace("\\\n", "").split())
    assert job == "plan" or all(command in flat for command in commands)
    for row in answer["shown"]:
        assert all(part in flat for part in (row["label"], row["text"]))


@pytest.mark.parametrize(("job", "inputs"), EXAMPLES)
def test_json_is_the_answer_of_the_door(capsys, job, inputs):
    status, out, _ = run(capsys, job, "--json", *spelled(inputs))
    assert status == 0
    assert out.strip() == call(json.dumps({"job": job, "inputs": inputs}))


def test_ranges_can_be_left_out(capsys):
    _, out, _ = run(capsys, "temper", "--json", "--no-doubt", "--moisture-pct-wet", "3")
    assert "doubt" not in json.loads(out)


def test_a_refusal_goes_to_the_error_stream_with_its_option(capsys):
    status, out, err = run(capsys, "temper", "--heap", "many", "--moisture-pct-wet", "99")
    assert (status, out) == (2, "")
    first, second = err.splitlines()
    assert first.startswith("--heap: Sand in the heap: “many”")
    assert second.startswith("--moisture-pct-wet: Moisture now: 99 %")


def test_refused_json_goes_to_the_output_with_status_2(capsys):
    status, out, err = run(capsys, "temper", "--json")
    assert (status, err) == (2, "")
    assert json.loads(out)["ok"] is False


@pytest.mark.parametrize(
    ("request_", "status"), [('{"job": "temper", "inputs": {"moisture_pct_wet": 3}}', 0), ("nonsense", 2)]
)
def test_call_reads_standard_input(capsys, monkeypatch, request_, status):
    monkeypatch.setattr(sys, "stdin", io.StringIO(request_))
    assert run(capsys, "call") == (status, call(request_) + "\n", "")


def test_describe_prints_what_the_door_describes(capsys):
    status, out, _ = run(capsys, "describe")
    assert status == 0
    assert json.loads(out) == json.loads(call('{"job": "describe"}'))


@pytest.mark.parametrize(
    ("arguments", "hint"),
    [
        (("temper", "--heep", "45kg"), "“--heep” isn't an option of temper. Did you mean --heap?"),
        (("temper", "--xyzzy", "1"), "“--xyzzy” isn't an option of temper. See sandmix temper --help."),
        (("heap", "--recrod", "poured"), "Did you mean --record?"),
        (("call", "--heap", "1"), "“--heap” isn't an option of call."),
        (("tempr",), "“tempr” isn't a command. Did you mean temper?"),
        (("melt",), "“melt” isn't a command. See sandmix --help."),
        (("--json", "temper"), "“--json” comes before the command. Write the command first"),
        (("temper", "--heap", "25", "--watch"), "“--watch” isn't an option of temper. "),
        (("temper", "--heap", "25", "kg"), 'A value with spaces needs quotes: --heap "25 kg".'),
        (("temper", "--heap=25", "kg", "--json"), 'A value with spaces needs quotes: --heap "25 kg".'),
        (("heap", "--note", "kg", "--pattern", "two", "kg", "hooks"), 'quotes: --pattern "two kg hooks".'),
        (("temper", "25"), "“25” isn't an option of temper. See sandmix temper --help."),
        (("temper", "--heap", "1", "--heap-kg", "2"), "--heap-kg is given twice. Give it once."),
        (("heap", "--note", "wet", "--note", "dry"), "--note is given twice. Give it once."),
        (("temper", "--he\x1b[2Jap", "1"), "“--he�[2Jap” isn't an option of temper."),
    ],
)
def test_a_wrong_option_or_command_is_named_with_the_nearest_right_one(capsys, arguments, hint):
    with pytest.raises(SystemExit) as ended:
        cli.main(arguments)
    assert ended.value.code == 2
    err = capsys.readouterr().err
    assert hint in err
    assert len(err.splitlines()) <= 3


def test_the_help_lists_the_commands_in_the_groups_of_the_menu(capsys):
    with pytest.raises(SystemExit):
        cli.main(["--help"])
    assert (
        "The heap:           heap, learned, tin, dry, rebond, forecast, facing, season, carbon, blend\n"
        in capsys.readouterr().out
    )


FLASKS = [
    {"name": "small", "flask_length_mm": 290, "flask_width_mm": 200, "drag_depth_mm": 90, "cope_depth_mm": 85},
    {"name": "", "flask_length_mm": 380, "flask_width_mm": 260, "drag_depth_mm": 95.5, "cope_depth_mm": 0},
]


def test_flasks_may_be_typed_in_short(capsys):
    """380 × 260 mm in cm; without a + there is no cope."""
    short = "small: 290 x 200 x 90 + 85 mm; 38x26×9,55 cm"
    sides = ("--pattern-length", "160", "--pattern-width", "90", "--pattern-height", "30")
    told = [run(capsys, "fit", "--json", *sides, "--flasks", text)[1] for text in (short, json.dumps(FLASKS))]
    assert json.loads(told[0])["result"] == json.loads(told[1])["result"]


@pytest.mark.parametrize(
    "text", ["small: 290 x 200", "290 x 200 x 90 + 85 furlongs", "290 x 200 x 90 + 85; and one more"]
)
@pytest.mark.parametrize("job", ["plan", "fit"])
def test_flasks_typed_otherwise_are_asked_for_in_the_form_that_the_help_shows(capsys, job, text):
    size = {
        "plan": ("--box", "160 x 90 x 30 mm"),
        "fit": ("--pattern-length", "160", "--pattern-width", "90", "--pattern-height", "30"),
    }
    status, out, err = run(capsys, job, *size[job], "--flasks", text)
    assert (status, out) == (2, "")
    form = "“small: 290 x 200 x 90 + 90 mm; large: …” (length, width, drag and cope inside)"
    assert err == f"--flasks: “{text}” can't be read as flasks. Write them as {form}, or in JSON.\n"
    with pytest.raises(SystemExit):
        cli.main([job, "--help"])
    assert form in " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize("text", ['[{"flask_length_mm": 290}', '[{"flask_length_mm": 290}]'])
def test_flasks_typed_in_json_are_refused_in_the_words_of_the_door(capsys, text):
    status, _, err = run(capsys, "plan", "--box", "160 x 90 x 30 mm", "--flasks", text)
    assert status == 2
    assert err.startswith("--flasks: Flasks on hand")


def test_flasks_are_shown_as_they_are_typed_where_they_can_be():
    assert spelling.typed("flasks", json.dumps(FLASKS)) == "small: 290 x 200 x 90 + 85 mm; 380 x 260 x 95.5 + 0 mm"
    for odd in (
        "nonsense",
        '[{"name": "one"}]',
        json.dumps([FLASKS[0] | {"name": "a: b"}]),
        '[{"flask_length_mm": "2 in"}]',
    ):
        assert spelling.typed("flasks", odd) == odd


@pytest.mark.parametrize("arguments", [[], ["melt"], ["temper", "--wrong", "1"], ["temper", "--heap"]])
def test_a_wrong_command_ends_with_status_2(capsys, arguments):
    with pytest.raises(SystemExit) as ended:
        cli.main(arguments)
    assert ended.value.code == 2
    assert "usage: sandmix" in capsys.readouterr().err


def test_the_version_is_printed(capsys):
    with pytest.raises(SystemExit) as ended:
        cli.main(["--version"])
    assert ended.value.code == 0
    assert capsys.readouterr().out == f"sandmix {__version__}\n"


@pytest.mark.parametrize("job", JOBS)
def test_help_names_every_option_and_an_example(capsys, job):
    with pytest.raises(SystemExit):
        cli.main([job, "--help"])
    out = capsys.readouterr().out
    assert "Example: python3 -m sandmix" in " ".join(out.split())
    assert JOBS[job].title.split()[0] in out
    for word in JOBS[job].example:
        assert spelling.option(word) in out


def test_without_remarks_there_is_no_heading_for_them(capsys):
    status, out, _ = run(
        capsys, "rebond", "--heap", "100", "--moisture-pct-wet", "3.5", "--clay-pct-dry", "6", "--dead-fines-pct-dry", "3",
        "--target-clay-pct-dry", "6",
    )  # fmt: skip
    assert status == 0
    assert out.startswith("Nothing to add")
    assert "Remarks" not in out


def test_the_checklist_is_printed(capsys):
    answer = json.loads(call(json.dumps({"job": "pour", "inputs": {"casting_volume_cm3": 600}})))
    _, out, _ = run(capsys, "pour", "--casting-volume", "600")
    flat = " ".join(out.split())
    assert "Checklist - " in flat
    assert all(f"- {check['text']}" in flat for check in answer["checklist"])


def test_the_next_step_is_a_command_that_works(capsys):
    _, out, _ = run(capsys, "mix", "--make", "25kg", "--clay-pct-dry", "8", "--moisture-pct-wet", "3.5")
    line = next(line for line in out.splitlines() if "How many bags is that?" in line)
    _, _, command = line.partition("sandmix ")
    status, _, err = run(capsys, *shlex.split(command), "--sand-bag", "25kg", "--clay-bag", "10kg")
    assert (status, err) == (0, "")


def test_a_next_step_with_a_long_input_is_printed_without_inputs(capsys):
    _, out, _ = run(capsys, *["match", *spelled(dict(JOBS["match"].example))])
    assert "How much clay and water does it need? sandmix blend\n" in out + "\n"
    assert all(len(line) <= terminal.WIDTH for line in out[out.index("\nNext") :].splitlines())


@pytest.mark.parametrize("typed", ["-5kg", "-5", "-5 kg", "-,5"])
def test_a_negative_amount_is_refused_in_words(capsys, typed):
    status, out, err = run(capsys, "temper", "--heap", typed, "--moisture-pct-wet", "3")
    assert (status, out) == (2, "")
    assert err.startswith("--heap: Sand in the heap: −")
    assert "is too little" in err


def test_a_stop_is_printed_on_its_own_line_above_the_figures(capsys):
    _, out, _ = run(capsys, "temper", "--heap", "25", "--moisture-pct-wet", "7")
    assert "\n\n  STOP\n" in out
    _, out, _ = run(capsys, "temper", "--heap", "25", "--moisture-pct-wet", "3")
    assert "STOP" not in out


def test_a_long_next_step_is_a_command_on_several_lines(capsys):
    """A shell joins lines that end in a backslash; the whole command works."""
    _, out, _ = run(capsys, *["fit", *spelled(dict(JOBS["fit"].example))])
    steps = out[out.index("\nNext\n") :]
    whole = steps.replace(" \\\n", " ")
    line = next(line for line in whole.splitlines() if "Fill this flask: " in line)
    status, told, err = run(capsys, *shlex.split(line.partition("sandmix ")[2]))
    assert (status, err) == (0, "")
    assert "\\\n" in steps and "Load to lift: cope" in told


@pytest.mark.parametrize(
    ("command", "rows"),
    [("fit", ("--flasks", '[{"flask_length_mm": 1e999}]')), ("fineness", ("--retained", '{"50": 1e999}'))],
)
def test_a_number_in_a_list_that_is_not_finite_is_refused_under_its_option(capsys, command, rows):
    status = cli.main((command, *rows))
    out, err = capsys.readouterr()
    assert (status, out) == (2, "")
    assert any(line.startswith(f"{rows[0]}: ") and "this number is far too large" in line for line in err.splitlines())


@pytest.mark.parametrize(
    ("given", "suggested"),
    [
        ("--grail", ""),
        ("--agian", "--again"),
        ("--flask", "--flasks"),
        ("--casing", "--casting"),
        ("--crucibel", "--crucible"),
        ("--moisture", "--moisture-pct-wet"),
        ("--weather", ""),
    ],
)
def test_only_a_near_misspelling_of_an_option_is_suggested(capsys, given, suggested):
    """Two letters swapped, one left out, or the start of a long name; not another word with some of the same letters."""
    with pytest.raises(SystemExit):
        cli.main(["plan", given, "x"])
    hint = f"Did you mean {suggested}?" if suggested else "See sandmix plan --help."
    assert capsys.readouterr().err.endswith(f"“{given}” isn't an option of plan. {hint}\n")


@pytest.mark.parametrize("job", JOBS)
def test_help_says_what_the_answer_is(capsys, job):
    with pytest.raises(SystemExit):
        cli.main([job, "--help"])
    assert f"The answer: {JOBS[job].answered_with}." in " ".join(capsys.readouterr().out.split()).replace("- ", "-")


@pytest.mark.parametrize(("job", "clock"), [("plan", True), ("heap", True), ("tin", False), ("feel", False)])
def test_help_says_which_time_counts_where_none_is_given(capsys, monkeypatch, tmp_path, job, clock):
    """The time is asked for exactly where the help says that this computer's clock is used."""
    with pytest.raises(SystemExit):
        cli.main([job, "--help"])
    said = " ".join(capsys.readouterr().out.split())
    assert ("the clock of this computer is used" in said) == clock
    assert ("the time of the last entry in the book" in said) == (not clock)
    asked = []
    monkeypatch.setattr(cli.document_file, "now_text", lambda: asked.append(1) or "2027-05-03")
    book = tmp_path / "heap.json"
    book.write_text("[]", "utf-8")
    run(capsys, job, "--book", str(book))
    assert bool(asked) == clock
