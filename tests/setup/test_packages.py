"""The packages that an index would get: their metadata, what is in them, and that they work where nothing else is installed."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest
from packaging.metadata import Metadata

from provision import ROOT
from tests.building import built

PACKAGES = ROOT / "tests/requirements-packages.txt"
TEMPER = ("temper", "--heap", "45kg", "--sample-wet", "400 g", "--sample-dry", "391 g", "--scale-step", "1 g")
ANSWER = "Temper it: the sand needs water. It holds 2.2 % water; the target is 3.5 % (both of the wet\nmass)."
USERS = """
import sandmix
answer = sandmix.ask.temper(heap="45 kg", sample_wet="400 g", sample_dry="391 g", scale_step="1 g")
print(answer.state.word, answer.to_do[0].amount, "<table>" in answer._repr_html_(), sandmix.__file__)
"""


def printed(*command: str | Path, cwd: Path, **environment: str) -> str:
    """What a command prints, without the packages and settings of this environment; raises with its own words if it fails."""
    seen = {name: os.environ[name] for name in ("PATH", "HOME", "LANG") if name in os.environ} | environment
    done = subprocess.run([*map(str, command)], cwd=cwd, env=seen, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built("wheel", ROOT, tmp_path_factory.mktemp("wheel"))


@pytest.fixture(scope="module")
def tools(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The commands of an environment that has the packages of the list, and nothing else."""
    folder = tmp_path_factory.mktemp("tools")
    printed(sys.executable, "-m", "venv", folder, cwd=folder)
    pip = {name: value for name, value in os.environ.items() if name.startswith("PIP_")}
    printed(folder / "bin/python", "-m", "pip", "install", "-q", "--require-hashes", "-r", PACKAGES, cwd=folder, **pip)
    return folder / "bin"


def test_the_metadata_are_complete_and_name_no_address(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        [name] = [name for name in archive.namelist() if name.endswith(".dist-info/METADATA")]
        told = Metadata.from_email(archive.read(name), validate=True)
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    assert (told.name, told.summary, told.requires_dist) == (project["name"], project["description"], None)
    assert (told.license_expression, told.license_files) == ("MIT", ["LICENSE"])
    assert told.description_content_type == "text/markdown"
    assert told.description == (ROOT / "README.md").read_text("utf-8")
    assert {"Typing :: Typed", "Environment :: Console"} <= set(told.classifiers or ())
    assert not told.project_urls and not told.home_page


def test_the_wheel_has_every_file_of_the_package_and_one_command(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        held = {name for name in archive.namelist() if ".dist-info/" not in name}
        [points] = [archive.read(name).decode() for name in archive.namelist() if name.endswith("entry_points.txt")]
    files = (path for path in (ROOT / "sandmix").rglob("*") if path.is_file() and "__pycache__" not in path.parts)
    assert held == {path.relative_to(ROOT).as_posix() for path in files}
    assert {"sandmix/py.typed", "sandmix/ask.pyi"} <= held
    assert points.split() == ["[console_scripts]", "sandmix", "=", "sandmix.__main__:main"]


def test_the_wheel_answers_without_the_checkout(wheel: Path, tmp_path: Path) -> None:
    code = f"{USERS}\nfrom sandmix.doors import cli\ncli.main({TEMPER!r})"
    told = printed(sys.executable, "-c", code, cwd=tmp_path, PYTHONPATH=str(wheel))
    first, _, second = told.partition("\n")
    assert first.split()[:4] == ["temper", "410", "g", "True"]
    assert first.split()[4].startswith(str(wheel))
    assert second.startswith(ANSWER)


@pytest.mark.full
def test_an_index_would_take_both_packages(wheel: Path, tools: Path, tmp_path: Path) -> None:
    told = printed(tools / "twine", "check", "--strict", wheel, built("sdist", ROOT, tmp_path), cwd=tmp_path)
    assert told.count("PASSED") == 2


@pytest.mark.full
def test_an_empty_environment_gets_the_command_and_the_functions(wheel: Path, tools: Path, tmp_path: Path) -> None:
    own = tmp_path / "own"
    printed(sys.executable, "-m", "venv", "--without-pip", own, cwd=tmp_path)
    printed(tools / "python", "-m", "pip", "--python", own, "install", "-q", "--no-index", wheel, cwd=tmp_path)
    assert printed(own / "bin/sandmix", *TEMPER, cwd=tmp_path).startswith(ANSWER)
    told = printed(own / "bin/python", "-c", USERS, cwd=tmp_path).split()
    assert told[:4] == ["temper", "410", "g", "True"]
    assert told[4].startswith(str(own))
    installed = sorted(path.name for path in own.glob("lib/python*/site-packages/*"))
    assert [name.partition("-")[0] for name in installed] == ["sandmix", "sandmix"]


@pytest.mark.full
def test_pipx_runs_the_wheel(wheel: Path, tools: Path, tmp_path: Path) -> None:
    around = {"PIPX_HOME": str(tmp_path / "home"), "PIPX_BIN_DIR": str(tmp_path / "bin")}
    pip = {name: value for name, value in os.environ.items() if name.startswith("PIP_")}
    told = printed(tools / "pipx", "run", "--spec", wheel, "sandmix", *TEMPER, cwd=tmp_path, **around, **pip)
    assert told.startswith(ANSWER)
    shutil.rmtree(tmp_path / "home", ignore_errors=True)
