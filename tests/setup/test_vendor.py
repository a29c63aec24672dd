"""What comes from npm: the chart library's script is complete, in order and licensed, and nothing parses text as elements."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

import vendor
from provision import ROOT


@pytest.fixture
def packages(tmp_path: Path) -> Path:
    """Stand-ins for npm's packages: each build requires the same packages as the real one."""
    requires: dict[str, list[str]] = {
        "d3-selection": [],
        "d3-array": [],
        "d3-color": [],
        "d3-interpolate": ["d3-color"],
        "d3-scale": ["d3-array", "d3-interpolate"],
        "d3-path": [],
        "d3-shape": ["d3-path"],
        "d3-axis": [],
    }
    for name, others in requires.items():
        build = tmp_path / name / "dist" / f"{name}.min.js"
        build.parent.mkdir(parents=True)
        required = " ".join(f'require("{other}")' for other in others)
        build.write_text(f"/*{name}*/ {required} this.innerHTML = t;")
        (tmp_path / name / "LICENSE").write_text("terms of one" if name == "d3-path" else "terms of all others")
    return tmp_path


def test_every_build_comes_after_those_it_requires(packages: Path) -> None:
    order = list(vendor.in_order(packages))
    assert sorted(order) == sorted(folder.name for folder in packages.iterdir())
    assert order.index("d3-color") < order.index("d3-interpolate") < order.index("d3-scale")
    assert order.index("d3-path") < order.index("d3-shape")


def test_the_script_holds_every_build_and_each_licence_once(packages: Path, tmp_path: Path) -> None:
    text = vendor.write(packages, tmp_path / "out").read_text("utf-8")
    assert [text.count(f"/*{name}*/") for name in vendor.WANTED] == [1] * len(vendor.WANTED)
    assert text.count("terms of one") == text.count("terms of all others") == 1


def test_the_script_sets_text_instead_of_elements(packages: Path, tmp_path: Path) -> None:
    text = vendor.write(packages, tmp_path / "out").read_text("utf-8")
    assert "innerHTML" not in text
    assert "this.textContent = t;" in text


def test_a_missing_build_is_named(packages: Path) -> None:
    (packages / "d3-color" / "dist" / "d3-color.min.js").unlink()
    with pytest.raises(vendor.NotVendored, match="d3-color"):
        vendor.in_order(packages)


@pytest.mark.parametrize(("folder", "kind"), [("site", "dependencies"), ("tests/javascript", "devDependencies")])
def test_the_lock_pins_every_package_by_hash_and_names_no_address(folder: str, kind: str) -> None:
    locked = json.loads((ROOT / folder / "package-lock.json").read_text("utf-8"))["packages"]
    wanted = json.loads((ROOT / folder / "package.json").read_text("utf-8"))[kind]
    assert {name: locked[f"node_modules/{name}"]["version"] for name in wanted} == wanted
    assert [
        name for name, entry in locked.items() if name and not entry.get("integrity", "").startswith("sha512-")
    ] == []
    assert [name for name, entry in locked.items() if "resolved" in entry] == []


@pytest.fixture(params=vendor.MODULES)
def module(request: pytest.FixtureRequest, tmp_path: Path) -> tuple[str, Path]:
    """A stand-in for each package of one module: its name and its build, beside a licence."""
    name = str(request.param)
    build = tmp_path / name / vendor.MODULES[name]
    build.parent.mkdir(parents=True, exist_ok=True)
    build.write_text("const openDB = 1;\nexport { openDB };\n")
    (tmp_path / name / "LICENSE").write_text("terms of the package")
    return name, build


def test_a_module_follows_its_licence_unchanged(module: tuple[str, Path], tmp_path: Path) -> None:
    name, build = module
    written = vendor.write_module(tmp_path, tmp_path / "out", name)
    text = written.read_text("utf-8")
    assert written.name == f"{name}.js"
    assert text.startswith("/*!")
    assert text.index("terms of the package") < text.index("*/") < text.index(build.read_text("utf-8").strip())


@pytest.mark.parametrize("line", ['import { wrap } from "./wrap.js";', "this.innerHTML = t;"])
def test_an_unexpected_module_stops_the_build(line: str, module: tuple[str, Path], tmp_path: Path) -> None:
    name, build = module
    build.write_text(f"{line}\n{build.read_text('utf-8')}")
    with pytest.raises(vendor.NotVendored, match=name):
        vendor.write_module(tmp_path, tmp_path / "out", name)
    assert not (tmp_path / "out").exists()


def test_a_missing_module_is_named(module: tuple[str, Path], tmp_path: Path) -> None:
    name, build = module
    build.unlink()
    with pytest.raises(vendor.NotVendored, match=name):
        vendor.write_module(tmp_path, tmp_path / "out", name)
