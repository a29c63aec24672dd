"""What is bundled for the page: each page's scripts, the packages in them, and nothing that parses text as elements."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

import bundle
import runtime
from provision import ROOT

PACKAGES = ("d3-axis", "idb", "lean-qr")
"""Some of those that the page's modules import."""


@pytest.fixture(scope="module")
def packages() -> Path:
    """The folder of npm's packages."""
    return runtime.core_folder().parent


@pytest.fixture(scope="module")
def built(packages: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[bundle.Bundle, Path]:
    """The bundle of the page's own modules, and its folder."""
    out = tmp_path_factory.mktemp("app")
    return bundle.write(packages, out), out


@pytest.fixture
def sources(tmp_path: Path) -> Path:
    """A folder for modules that a test writes."""
    folder = tmp_path / "sources"
    folder.mkdir()
    return folder


def test_entries_keep_their_names_and_other_files_are_named_by_content(built: tuple[bundle.Bundle, Path]) -> None:
    names = {path.name for path in built[1].iterdir()}
    assert set(bundle.ENTRIES) <= names
    assert all("-" in name for name in names - set(bundle.ENTRIES))


def test_the_same_modules_give_the_same_bytes(
    packages: Path, built: tuple[bundle.Bundle, Path], tmp_path: Path
) -> None:
    bundle.write(packages, tmp_path / "again")
    assert {path.name: path.read_bytes() for path in (tmp_path / "again").iterdir()} == {
        path.name: path.read_bytes() for path in built[1].iterdir()
    }


@pytest.mark.parametrize(("holds", "start"), bundle.KINDS.items())
def test_a_page_names_the_scripts_of_its_kind(built: tuple[bundle.Bundle, Path], holds: str, start: str) -> None:
    made, out = built
    scripts = made.scripts_of(f'<div class="one" {holds}="x">')
    assert scripts[0] == "main.js"
    assert any(name.startswith(Path(start).stem) for name in scripts)
    assert len(scripts) == len(set(scripts))
    assert all((out / name).is_file() for name in scripts)
    assert set(made.scripts_of(f'<div {holds}-state="x">')) < set(scripts)


@pytest.mark.parametrize("late", ["chart-drawing", "card-print", "lean-qr", "worker"])
def test_what_a_page_may_never_need_is_not_among_its_first_scripts(
    built: tuple[bundle.Bundle, Path], late: str
) -> None:
    made, out = built
    assert any(path.name.startswith(late) for path in out.glob("*.js"))
    everything = made.scripts_of(" ".join(f"<p {holds}>" for holds in bundle.KINDS))
    assert not any(name.startswith(late) for name in everything)


def test_the_packages_that_the_modules_import_are_named(built: tuple[bundle.Bundle, Path]) -> None:
    assert set(PACKAGES) <= set(built[0].packages)


@pytest.mark.parametrize(
    "line",
    [
        "root.innerHTML = text;",
        'root.insertAdjacentHTML("beforeend", text);',
        "document.write(text);",
        "root.outerHTML = text;",
    ],
)
def test_a_script_that_makes_elements_of_text_stops_the_build(
    packages: Path, sources: Path, tmp_path: Path, line: str
) -> None:
    (sources / "main.js").write_text(f"export function put(root, text) {{ {line} }}\n")
    with pytest.raises(bundle.NotBundled, match=r"main\.js sets"):
        bundle.write(packages, tmp_path / "out", sources, ["main.js"])


def test_a_module_that_does_not_exist_is_named(packages: Path, sources: Path, tmp_path: Path) -> None:
    (sources / "main.js").write_text('import "./missing.js";\n')
    with pytest.raises(runtime.BuildError, match=r"missing\.js"):
        bundle.write(packages, tmp_path / "out", sources, ["main.js"])


@pytest.mark.parametrize(
    ("folder", "kind"), [("site", "dependencies"), ("site", "devDependencies"), ("tests/javascript", "devDependencies")]
)
def test_the_lock_pins_every_package_by_hash_and_names_no_address(folder: str, kind: str) -> None:
    locked = json.loads((ROOT / folder / "package-lock.json").read_text("utf-8"))["packages"]
    wanted = json.loads((ROOT / folder / "package.json").read_text("utf-8"))[kind]
    assert {name: locked[f"node_modules/{name}"]["version"] for name in wanted} == wanted
    assert [
        name for name, entry in locked.items() if name and not entry.get("integrity", "").startswith("sha512-")
    ] == []
    assert [name for name, entry in locked.items() if "resolved" in entry] == []


def test_a_worker_is_one_file_and_knows_the_folder_of_python(packages: Path, tmp_path: Path) -> None:
    bundle.write(packages, tmp_path / "app", python="0123abc")
    for name in ("worker.js", "snapshot-worker.js"):
        text = (tmp_path / "app" / name).read_text("utf-8")
        assert "../py/0123abc/" in text
        assert not re.search(r'import\s*["{*]|from"', text), f"{name} waits for a second file"
