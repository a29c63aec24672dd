"""Every door gives the same answer: the functions in Python, `facade.call`, and the command line from a bare checkout."""

from __future__ import annotations

import io
import json
import math
import os
import subprocess
import sys
from pathlib import Path

import pytest
from effort import is_long

import sandmix
from sandmix.bench import estimates, measurements
from sandmix.cooling import burnout
from sandmix.cooling.cooling import cool
from sandmix.cooling.freezing import PERFECT, Case
from sandmix.doors import cli
from sandmix.doors.facade import call
from sandmix.doors.spelling import option
from sandmix.jobs import JOBS
from sandmix.materials import fineness
from sandmix.materials.metals import thermal
from sandmix.materials.sands_and_clays import SANDS_FOR_HEAT
from sandmix.mould import flask, pour
from sandmix.recipes import forecast, mix, rebond, shopping, temper
from sandmix.vocabulary import WORDS, Quantity

ROOT = Path(sandmix.__file__).parent.parent
EXAMPLES = [(job.name, dict(job.example)) for job in JOBS.values()]


@pytest.fixture(scope="module")
def elsewhere(tmp_path_factory):
    return tmp_path_factory.mktemp("elsewhere")


@pytest.fixture(scope="module")
def command(elsewhere):
    """Run `python3 -m sandmix` from another folder, with the checkout on the path and nothing installed."""

    def command(*arguments: str, said: str | bytes = "", **environment: str) -> subprocess.CompletedProcess[bytes]:
        around = {
            "PATH": os.environ.get("PATH", ""),
            "PYTHONPATH": str(ROOT),
            "PYTHONDONTWRITEBYTECODE": "1",
        } | environment
        given = said.encode() if isinstance(said, str) else said
        return subprocess.run(
            [sys.executable, "-m", "sandmix", *arguments],
            input=given,
            capture_output=True,
            cwd=elsewhere,
            env=around,
            check=False,
            timeout=60,
        )

    return command


@pytest.fixture
def started(command, capsys, monkeypatch):
    """The same; a usual run calls the command line in this process, since each start takes longer than most answers."""
    if is_long():
        return command

    def started(*arguments: str, said: str = "") -> subprocess.CompletedProcess[bytes]:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(said.encode()), encoding="utf-8"))
        status = cli.main(arguments)
        printed = capsys.readouterr()
        return subprocess.CompletedProcess(arguments, status, printed.out.encode(), printed.err.encode())

    return started


def options(inputs):
    return [part for word, value in inputs.items() for part in (option(word), value)]


def asked(job, inputs, **beside):
    return json.loads(call(json.dumps({"job": job, "inputs": inputs, **beside})))


@pytest.mark.parametrize(("job", "inputs"), EXAMPLES)
class TestEachExample:
    def test_gets_the_same_answer_by_options_and_by_call(self, started, job, inputs):
        by_options = started(job, "--json", *options(inputs))
        by_call = started("call", said=json.dumps({"job": job, "inputs": inputs}))
        assert (by_options.returncode, by_call.returncode) == (0, 0)
        assert json.loads(by_options.stdout) == json.loads(by_call.stdout) == asked(job, inputs)
        assert by_options.stderr == by_call.stderr == b""

    def test_is_printed_with_the_texts_of_the_door(self, started, job, inputs):
        shown = started(job, *options(inputs))
        answer = asked(job, inputs)
        assert shown.returncode == 0
        for row in answer["shown"]:
            assert row["text"] in " ".join(shown.stdout.decode().split())

    def test_gives_the_same_answer_as_numbers_with_units(self, job, inputs):
        """A text with a unit means the same as a value with a separate unit."""
        apart = {}
        for word, text in inputs.items():
            number, _, unit = text.partition(" ")
            single = unit and isinstance(WORDS[word], Quantity)
            apart[word] = {"value": float(number), "unit": unit} if single else text
        told = asked(job, apart)
        assert told["ok"]
        for word, value in asked(job, inputs)["result"].items():
            assert told["result"][word] == (pytest.approx(value, rel=1e-12) if isinstance(value, float) else value)


def test_a_command_that_is_started_gives_the_same_answers(command):
    inputs = dict(JOBS["temper"].example)
    native = asked("temper", inputs)
    by_options = command("temper", "--json", *options(inputs))
    by_call = command("call", said=json.dumps({"job": "temper", "inputs": inputs}))
    shown = command("temper", *options(inputs))
    assert [ended.returncode for ended in (by_options, by_call, shown)] == [0, 0, 0]
    assert json.loads(by_options.stdout) == json.loads(by_call.stdout) == native
    assert all(row["text"] in " ".join(shown.stdout.decode().split()) for row in native["shown"])
    assert by_options.stderr == by_call.stderr == shown.stderr == b""


class TestTheFunctionsInPython:
    def test_temper(self):
        result = asked("temper", {"heap_kg": 25, "sample_wet_g": 500, "sample_dry_g": 491})["result"]
        moisture = measurements.moisture_pct_wet(500, 491)
        assert result["moisture_pct_wet"] == moisture
        assert result["water_kg"] == temper.water_to_add_kg(25, moisture / 100, 0.035)
        assert result["verdict"] == temper.verdict(moisture, 3.5, 6.0)

    def test_mix(self):
        result = asked("mix", {"make_kg": 35, "clay_pct_dry": 7, "moisture_pct_wet": 3.5, "mixer_kg": 12})["result"]
        weights = mix.design(dry_kg=35 * 0.965, clay=0.07, moisture=0.035, materials=mix.BoughtMaterials())
        assert (result["sand_kg"], result["clay_kg"], result["water_kg"]) == pytest.approx(
            (weights.sand.wet_kg, weights.clay.wet_kg, weights.water_balance_kg), rel=1e-12
        )
        assert result["batches"] == mix.batches(35, 12)

    def test_flask(self):
        result = asked(
            "flask",
            {"flask_length_mm": 300, "flask_width_mm": 250, "drag_depth_mm": 100, "cope_depth_mm": 80, "heap_kg": 10},
        )["result"]
        box = flask.Flask(length_mm=300, width_mm=250, drag_depth_mm=100, cope_depth_mm=80)
        assert result["make_kg"] == flask.make_kg(box.volume_l * 1.55, 0.25)
        assert result["fits_length_mm"] == flask.length_that_fits_mm(
            box, heap_kg=10, rammed_kg_l=1.55, spare=0.25, taken_l=0
        )

    def test_rebond(self):
        inputs = {
            "heap_kg": 40,
            "moisture_pct_wet": 2.1,
            "clay_pct_dry": 5.8,
            "dead_fines_pct_dry": 3.4,
            "target_clay_pct_dry": 7,
        }
        heap = sandmix.Sand.lying(40, moisture_pct_wet=2.1, clay_pct_dry=5.8, other_fines_pct_dry=3.4)
        grown = 40 * 0.979 * (1 + (0.07 - 0.058) / (1 - 0.07)) / 0.965
        plan = rebond.plan(
            heap, rebond.Target(wet_kg=grown, clay=0.07, moisture=0.035, dead_fines_limit=0.06), mix.BoughtMaterials()
        )
        result = asked("rebond", inputs)["result"]
        assert isinstance(plan, rebond.RebondPlan)
        assert (result["discard_kg"], result["clay_kg"]) == pytest.approx((plan.discard_kg, plan.clay_kg), rel=1e-12)

    def test_fineness(self):
        retained = {"50": 20, "70": 45, "100": 25, "140": 10}
        result = asked("fineness", {"retained": retained})["result"]
        assert result["gfn"] == fineness.gfn(retained)
        assert result["passing"] == fineness.passing_pct(retained)

    def test_bench(self):
        result = asked("bench", {"test": "permeability", "pressure_cm": 9.6, "time_s": 36})["result"]
        assert result["permeability"] == measurements.permeability(9.6, 36)

    def test_estimate(self):
        result = asked("estimate", {"moisture_pct_wet": 4, "compactability_read_pct": 40})["result"]
        assert result["clay_mulled_pct_dry"] == pytest.approx(estimates.mulled_clay_pct_dry(4, 40), rel=1e-12)

    def test_forecast(self):
        inputs = {"clay_pct_dry": 8, "clay_burnt_share": 0.02, "new_sand_share": 0.03, "casts": 5}
        habit = forecast.Habit(burnt=0.02, replaced=0.03, kept=1.0, make_up=True)
        result = asked("forecast", inputs)["result"]
        closed = [forecast.after(habit, 8, at)[1] for at in range(1, 6)]
        assert result["dead_clay_pct_dry"] == pytest.approx(closed, rel=1e-12)
        assert result["casts_until_limit"] == forecast.casts_until(habit, 8, 3)

    def test_blend(self):
        lots = [{"kg": 3, "retained": {"50": 20}}, {"kg": 1, "retained": {"100": 100}}]
        result = asked("blend", {"lots": lots})["result"]
        assert result["retained"] == fineness.blended([({"50": 20}, 3), ({"100": 100}, 1)])
        assert result["make_kg"] == 4

    def test_shopping(self):
        assert asked("shopping", {"sand_kg": 53.6, "sand_bag_kg": 20})["result"]["sand_bags"] == shopping.bags(53.6, 20)

    def test_pour(self):
        inputs = {"metal": "tin_bronze", "casting_volume_cm3": 500, "melt_loss_pct": 3, "pour_temp_c": 1150}
        over = {"projected_area_cm2": 240, "head_mm": 120, "cope_kg": 9, "crucible_l": 1.5, "fill_time_s": 5}
        result = asked("pour", inputs | over)["result"]
        metal = thermal("tin_bronze")
        charge = pour.charge_kg(500, 0.5, metal.solid_kg_m3, 0.03, 0.1)
        uplift = pour.uplift_kg(240, 120, metal.liquid_kg_m3)
        mould = pour.charge_kg(500, 0.5, metal.solid_kg_m3, 0, 0)
        assert result["charge_kg"] == charge
        assert result["crucible_fill_pct"] == pour.crucible_fill_pct(charge, metal.liquid_kg_m3, 1.5)
        assert (result["uplift_kg"], result["weights_kg"]) == (uplift, 1.5 * uplift - 9)
        assert result["choke_mm2"] == pour.choke_mm2(mould, metal.liquid_kg_m3, 5, 120)
        assert result["vents"] == pour.vents(240)
        aluminium = asked("pour", {"casting_volume_cm3": 500, "pour_temp_c": 730})["result"]
        assert aluminium["hydrogen_cm3_100g"] == pour.hydrogen_cm3_100g(730)

    @pytest.mark.parametrize(("said", "contact"), [("perfect", PERFECT), (150, 150.0)])
    def test_burnout(self, said, contact):
        inputs = {
            "metal": "al_si7mg",
            "pour_temp_c": 710,
            "casting_volume_cm3": 400,
            "casting_area_cm2": 400,
            "shape": "bar",
            "contact_w_m2k": said,
            "moisture_pct_wet": 4,
            "clay": "calcium_bentonite",
            "clay_pct_dry": 7,
            "sand_kg": 30,
            "flask_sand_kg": 20,
            "wall_mm": 80,
        }
        result = asked("burnout", inputs)["result"]
        cooling = cool(
            Case(
                metal=thermal("al_si7mg"),
                pour_temp_c=710.0,
                sand=SANDS_FOR_HEAT["a"],
                water=4 / 96,
                shape_n=1.0,
                modulus_mm=10.0,
                contact_w_m2k=contact,
                wall_mm=80.0,
            )
        )
        mould = burnout.HeatedMould(cooling=cooling, area_m2=0.04, dry_kg=20 * 0.96)
        opened_s = cooling.middle_below_s(557 / 2)
        by_hand = {
            "freeze_s": cooling.freeze_s,
            "solid_after_min": 1.5 * cooling.freeze_s / 60,
            "open_after_min": opened_s / 60,
            "handle_after_min": cooling.middle_below_s(60) / 60,
            "dry_depth_mm": cooling.dry_depth_mm,
            "burnt_depth_mm": cooling.depth_past_mm(316),
            "burnt_sand_kg": mould.shell_kg(cooling.depth_past_mm(316)),
            "water_driven_kg": mould.water_driven_kg,
            "clay_burnt_by_rate_kg": 0.07 * mould.burnt_by_rate_kg(),
            "sand_mean_c": mould.sand_mean_c(opened_s),
        }
        assert {word: result[word] for word in by_hand} == pytest.approx(by_hand, rel=1e-9)

    def test_an_error_in_python_is_a_sandmix_error_with_all_problems(self):
        from sandmix.asking.form import fill

        with pytest.raises(sandmix.SandmixError) as refused:
            fill(JOBS["temper"].form, {"heap_kg": "x", "moisture_pct_wet": "y"})
        assert isinstance(refused.value, sandmix.InputError)
        assert len(refused.value.problems) == 2


class TestRefusals:
    def test_have_status_2_and_the_messages_of_the_door(self, command):
        inputs = {"heap_kg": "a cup", "moisture_pct_wet": "7:1"}
        messages = [problem["message"] for problem in asked("temper", inputs)["problems"]]
        refused = command("temper", *options(inputs))
        assert (refused.returncode, refused.stdout) == (2, b"")
        assert [line.split(": ", 1)[1] for line in refused.stderr.decode().splitlines()] == messages

    @pytest.mark.parametrize(
        "said",
        [
            "",
            "nonsense",
            '{"job": "none"}',
            '{"job":"\\ud800"}',
            "[" * 100_000,
            '{"job": "temper", "inputs": {"heap_kg": 1e400}}',
        ],
    )
    def test_of_call_are_json_with_status_2(self, command, said):
        refused = command("call", said=said)
        assert (refused.returncode, refused.stderr) == (2, b"")
        assert json.loads(refused.stdout)["ok"] is False

    def test_of_bytes_that_are_not_text(self, command):
        refused = command("call", said=b"\xff\xfe\x00")
        assert refused.returncode == 2
        assert json.loads(refused.stdout)["ok"] is False

    def test_come_in_the_same_order_whatever_the_hash_seed(self, command):
        said = json.dumps({"job": "temper", "inputs": {"a": 1, "b": 2, "c": 3, "d": 4, "e": 5}})
        assert len({command("call", said=said, PYTHONHASHSEED=seed).stdout for seed in "1234"}) == 1

    @pytest.mark.parametrize("arguments", [(), ("melt",), ("temper", "--no-such-word", "1")])
    def test_of_a_wrong_command_have_status_2(self, command, arguments):
        assert command(*arguments).returncode == 2

    def test_of_a_negative_number_name_the_number(self, command):
        refused = command("temper", "--heap", "-5", "--moisture-pct-wet", "3")
        assert refused.returncode == 2
        assert "−5 kg is too little" in refused.stderr.decode()


def test_a_stop_on_the_command_line(command):
    """25 kg, 500 g to 468 g: 6.4 %, over 6: stop; 25 (6.4 - 3.5) / 96.5 = 0.751 to lose."""
    shown = command("temper", "--heap", "25kg", "--sample-wet", "500 g", "--sample-dry", "468 g", "--scale-step", "1 g")
    assert shown.returncode == 0
    assert shown.stdout.decode().startswith("Stop: ")
    assert math.isclose(25 * 2.9 / 96.5, 0.7513, abs_tol=1e-4)
    assert "750 g" in shown.stdout.decode()


@pytest.mark.parametrize("spelled", ['{"50": 21.4, "pan": 0.2}', "50: 21.4; pan: 0.2"])
def test_a_table_on_the_command_line_is_json_or_pairs(command, spelled):
    shown = command("fineness", "--json", "--retained", spelled)
    assert shown.returncode == 0
    assert json.loads(shown.stdout) == asked("fineness", {"retained": {"50": 21.4, "pan": 0.2}})


def test_a_list_of_things_on_the_command_line_is_json(command):
    shown = command("blend", "--json", "--lots", '[{"kg": 3}, {"kg": "500 g"}]')
    assert shown.returncode == 0
    assert json.loads(shown.stdout) == asked("blend", {"lots": [{"kg": 3}, {"kg": 0.5}]})


@pytest.mark.parametrize("spelled", ["nonsense", "[", '[{"kg": NaN}]', "{}", "[" * 600, "3"])
def test_anything_but_a_list_of_things_is_refused_in_words(command, spelled):
    refused = command("blend", "--lots", spelled)
    assert (refused.returncode, refused.stdout) == (2, b"")
    assert (
        refused.stderr.decode()
        == '--lots: Lots of sand: this isn\'t a list. Enter a list of lots, each as {"kg": …}.\n'
    )


def test_describe_prints_the_description_of_the_door(command):
    assert json.loads(command("describe").stdout) == asked("describe", {})


def test_it_prints_to_an_ascii_terminal(command):
    shown = command("mix", *options(dict(JOBS["mix"].example)), PYTHONIOENCODING="ascii")
    assert shown.returncode == 0
    assert b"Traceback" not in shown.stderr


@pytest.mark.parametrize("closed", ["<&-", ">&-", "2>&-"])
@pytest.mark.parametrize("words", ["call", "temper --moisture-pct-wet 3", "temper --heap much"])
def test_a_closed_stream_gets_no_traceback(elsewhere, closed, words):
    left = subprocess.run(
        ["/bin/sh", "-c", f'"{sys.executable}" -m sandmix {words} {closed}'],
        capture_output=True,
        stdin=subprocess.DEVNULL,
        cwd=elsewhere,
        env={"PATH": os.environ.get("PATH", ""), "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"},
        check=False,
        timeout=60,
    )
    assert b"Traceback" not in left.stderr + left.stdout
    assert left.returncode in (0, 2)


def test_a_reader_that_stops_early_gets_no_traceback(elsewhere):
    pipe = f'"{sys.executable}" -m sandmix describe | head -c 10'
    left = subprocess.run(
        ["/bin/sh", "-c", pipe],
        capture_output=True,
        cwd=elsewhere,
        env={"PATH": os.environ.get("PATH", ""), "PYTHONPATH": str(ROOT)},
        check=False,
        timeout=60,
    )
    assert left.stderr == b""


def test_nothing_is_written_and_nothing_but_the_standard_library_is_loaded(command, elsewhere):
    command("temper", "--moisture-pct-wet", "3")
    assert list(elsewhere.iterdir()) == []
    loaded = subprocess.run(
        [sys.executable, "-S", "-c", "import sys, sandmix.doors.cli; print(*{name.split('.')[0] for name in sys.modules})"],
        capture_output=True, text=True, cwd=elsewhere, env={"PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"}, check=True, timeout=60,
    )  # fmt: skip
    assert set(loaded.stdout.split()) - {"sandmix", "__main__"} <= sys.stdlib_module_names
