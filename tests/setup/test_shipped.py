"""All that the site ships is listed with its terms, for people and for programs; what is not known stops the build."""

from __future__ import annotations

import json
from html import escape
from importlib.metadata import distribution
from pathlib import Path

import pytest
from cyclonedx.schema import SchemaVersion
from cyclonedx.validation.json import JsonStrictValidator

import draw_licences
import runtime
import sbom
import shipped

BUNDLED = ("d3-axis", "idb")


@pytest.fixture(scope="module")
def npm() -> Path:
    """The folder of npm's packages."""
    return runtime.core_folder().parent


@pytest.fixture(scope="module")
def parts(npm: Path) -> list[shipped.Part]:
    """All parts, as with a bundle of two packages."""
    return shipped.parts(npm, BUNDLED)


def test_every_kind_of_part_is_there_with_its_terms(parts: list[shipped.Part]) -> None:
    names = [part.name for part in parts]
    assert {"sandmix", *BUNDLED, "pyodide", "CPython", "SQLite", "mkdocs-material", "rxjs", "Octicons"} <= set(names)
    assert len(names) == len(set(names))
    assert all(part.terms and all(part.terms) and part.licence for part in parts)


def test_the_page_shows_the_terms_of_a_part_under_its_name(npm: Path, parts: list[shipped.Part]) -> None:
    html = draw_licences.page(parts)
    version = json.loads((npm / "idb/package.json").read_text("utf-8"))["version"]
    terms = (npm / "idb/LICENSE").read_text("utf-8").splitlines()[-1]
    shown = html[html.index(f"<h2>idb {version}</h2>") :]
    assert escape(terms) in shown[: shown.index("</pre>")]


def test_the_list_is_what_the_schema_of_cyclonedx_allows(parts: list[shipped.Part], tmp_path: Path) -> None:
    sbom.write(tmp_path, parts)
    text = (tmp_path / sbom.NAME).read_text("utf-8")
    validator = JsonStrictValidator(SchemaVersion.V1_6)
    assert validator.validate_str(text) is None
    assert validator.validate_str(text.replace('"bom-ref"', '"reference"')) is not None
    sbom.write(tmp_path, parts)
    assert (tmp_path / sbom.NAME).read_text("utf-8") == text


def test_a_component_has_the_hash_of_the_lock_and_an_address(parts: list[shipped.Part]) -> None:
    listed = {each["name"]: each for each in sbom.listed(parts)["components"]}
    assert listed["idb"]["purl"] == f"pkg:npm/idb@{listed['idb']['version']}"
    [hashed] = listed["idb"]["hashes"]
    assert hashed["alg"] == "SHA-512"
    assert len(bytes.fromhex(hashed["content"])) == 64


def test_each_part_hangs_on_what_brings_it(parts: list[shipped.Part]) -> None:
    brought = {each["ref"]: each["dependsOn"] for each in sbom.listed(parts)["dependencies"]}
    assert "pyodide-cpython" in brought["the-calculator-pyodide"]
    assert sum(map(len, brought.values())) == len(parts) - 1


@pytest.mark.parametrize("row", shipped.INTERPRETER, ids=lambda row: row[0])
def test_the_interpreter_holds_what_the_table_says(
    npm: Path, row: tuple[str, str, str, tuple[str, ...], bytes]
) -> None:
    assert row[4] in (npm / "pyodide/pyodide.asm.wasm").read_bytes()


def test_terms_that_are_missing_stop_the_build(tmp_path: Path) -> None:
    (tmp_path / "other").mkdir()
    (tmp_path / "other" / "package.json").write_text('{"version": "1.0.0", "license": "MIT"}')
    with pytest.raises(shipped.NoTerms, match="The terms of other are missing"):
        shipped.npm_part(tmp_path, "other", "the page's scripts")


def test_another_pyodide_stops_the_build_until_somebody_looked(npm: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shipped, "LOOKED_AT", "0.0.0")
    with pytest.raises(shipped.NoTerms, match=r"looked at for 0\.0\.0"):
        shipped.pyodide(npm)


def test_a_new_package_in_the_theme_stops_the_build(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delitem(shipped.IN_THEME, "lunr")
    with pytest.raises(shipped.NoTerms, match="hold lunr, whose terms are not known"):
        shipped.theme(distribution(shipped.THEME))


def test_no_terms_are_kept_for_nothing() -> None:
    used = {name for row in (*shipped.INTERPRETER, *shipped.IN_PYODIDE_SCRIPTS) for name in row[3]}
    used |= {*shipped.IN_THEME, "mpl-2.0"}
    assert {path.stem for path in shipped.TERMS.iterdir()} == used
