"""What a version publishes, and what keeps it from being published."""

import zipfile
from pathlib import Path

import pytest

import publish
from provision import Fault

CHANGELOG = "# Changes\n\n## 0.2.0, 2026-12-01\n\n### New\n\nA riser.\n\n## 0.1.0, 2026-11-01\n\n### New\n\nAll.\n"


def test_a_version_that_agrees_with_its_tag_and_changelog_has_no_problem() -> None:
    assert [*publish.problems("v0.2.0", "0.2.0", CHANGELOG, "")] == []


def test_all_that_is_wrong_is_named_at_once() -> None:
    unfinished = CHANGELOG.replace("2026-12-01", publish.UNFINISHED)
    wrong = [*publish.problems("v0.3.0", "0.2.0", unfinished, "README.md site/new.py")]
    assert len(wrong) == 3
    assert "v0.2.0" in wrong[0]
    assert publish.UNFINISHED in wrong[1]
    assert "README.md, site/new.py" in wrong[2]


@pytest.mark.parametrize("version", ["0.1.0", "0.2", "0.2.0rc1"])
def test_the_newest_heading_must_be_the_version(version: str) -> None:
    assert len([*publish.problems(f"v{version}", version, CHANGELOG, "")]) == 1


def test_the_notes_are_those_of_the_newest_version_only() -> None:
    assert publish.notes(CHANGELOG) == "## 0.2.0, 2026-12-01\n\n### New\n\nA riser.\n"


def test_the_zip_file_has_every_file_and_the_same_bytes_each_time(tmp_path: Path) -> None:
    site = tmp_path / "site"
    (site / "temper").mkdir(parents=True)
    (site / "index.html").write_text("today")
    (site / "temper/index.html").write_text("temper")
    first = publish.zipped(site, tmp_path / "a.zip").read_bytes()
    (site / "index.html").touch()
    assert publish.zipped(site, tmp_path / "b.zip").read_bytes() == first
    with zipfile.ZipFile(tmp_path / "a.zip") as archive:
        assert {name: archive.read(name) for name in archive.namelist()} == {
            "index.html": b"today",
            "temper/index.html": b"temper",
        }


def test_nothing_is_published_over_what_is_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(publish, "problems", lambda *_: iter(()))
    (tmp_path / "old").write_text("kept")
    with pytest.raises(Fault, match="not empty"):
        publish.publish(tmp_path, "v0.2.0", "")
    assert (tmp_path / "old").read_text() == "kept"
