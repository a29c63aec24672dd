"""The changelog names every number that changed since the version published last, and speaks of this version."""

import re

import changed_numbers
from changed_numbers import Changed
from sandmix import __version__

EXAMPLE = {"mix": {"inputs": {"make_kg": 45}, "figures": {"clay_add_kg": 3.5, "water_add_kg": 1.2}}}
CHANGELOG = """# Changes

## 0.2.0

### New

`mix` has `clay_add_kg`.

### Changed numbers

- `mix`, `clay_add_kg`: 3.5 before, 3.6 now.

## 0.1.0

### Changed numbers

- `mix`, `water_add_kg`: long ago.
"""


def with_figures(**figures: float) -> dict[str, changed_numbers.Figures]:
    return {"mix": {"inputs": {"make_kg": 45}, "figures": figures}}


def test_the_changelog_names_every_number_that_changed_since_the_last_version() -> None:
    """Where this fails, write each line under *Changed numbers* in site/docs/changes.md, with the reason."""
    changed = changed_numbers.changes(changed_numbers.published(), changed_numbers.today())
    assert changed_numbers.not_named(changed, changed_numbers.CHANGELOG.read_text("utf-8")) == []


def test_the_newest_heading_of_the_changelog_is_this_version() -> None:
    assert changed_numbers.newest(changed_numbers.CHANGELOG.read_text("utf-8")).startswith(__version__)


def test_every_version_in_the_changelog_has_the_three_headings() -> None:
    versions = changed_numbers.CHANGELOG.read_text("utf-8").split("\n## ")[1:]
    assert versions
    for version in versions:
        assert re.findall("^### (.*)$", version, re.MULTILINE) == ["New", "Changed numbers", "Mended"]


def test_a_figure_that_differs_came_or_went_is_a_change() -> None:
    now = with_figures(clay_add_kg=3.6, sand_add_kg=40.0)
    assert [*changed_numbers.changes(EXAMPLE, now)] == [
        Changed("mix", "clay_add_kg", 3.5, 3.6),
        Changed("mix", "sand_add_kg", None, 40.0),
        Changed("mix", "water_add_kg", 1.2, None),
    ]


def test_rounding_on_another_machine_is_no_change() -> None:
    assert [*changed_numbers.changes(EXAMPLE, with_figures(clay_add_kg=3.500001, water_add_kg=1.2))] == []


def test_other_inputs_of_an_example_are_no_changed_number() -> None:
    now = {"mix": {"inputs": {"make_kg": 50}, "figures": {"clay_add_kg": 3.9}}}
    assert [*changed_numbers.changes(EXAMPLE, now)] == []


def test_a_change_must_stand_under_its_heading_in_the_newest_version() -> None:
    changed = [Changed("mix", "clay_add_kg", 3.5, 3.6), Changed("mix", "water_add_kg", 1.2, 1.3)]
    assert changed_numbers.not_named(iter(changed), CHANGELOG) == [
        "- `mix`, `water_add_kg`: 1.2 before, 1.3 now, because …"
    ]
