"""Python for the browser is stripped of exports that nobody names, and of nothing else; where that fails, the untouched files are shipped."""

from __future__ import annotations

import gzip
from collections.abc import Callable
from pathlib import Path

import pytest

import runtime
import strip

STARTER = "start.go=m=>m._named_by_starter(1)"
SCRIPT = (
    'var first=1;var looked=wasmExports["quoted"];function use(){return [_named(2),wasmExports.dotted]}'
    "var _named,_other,_named_by_starter,_data,wasmMemory;"
    'function assignWasmExports(wasmExports){_named=Module["_named"]=wasmExports["named"];_other=Module["_other"]=wasmExports["other"];'
    '_named_by_starter=Module["_named_by_starter"]=wasmExports["named_by_starter"];_data=Module["_data"]=wasmExports["data"].value>>>0;'
    'memory=Module["memory"]=wasmMemory=wasmExports["memory"]}var after=2;wasmExports["other"]=makeWrapper_p(wasmExports["other"]);'
    'wasmExports["named"]=makeWrapper_pp(wasmExports["named"]);run()'
)
EXPORTS = {
    "named": 0,
    "other": 0,
    "named_by_starter": 0,
    "quoted": 0,
    "dotted": 0,
    "looked_up": 0,
    "data": 3,
    "memory": 2,
}
KEPT = {"named", "named_by_starter", "quoted", "dotted", "looked_up", "memory"}


def name(text: str) -> bytes:
    return bytes([len(text)]) + text.encode()


def module() -> bytes:
    """Not a module that runs: the two sections that matter, and one that does not."""
    imports = [
        name("env") + name("function") + b"\0\x05",
        name("env") + name("table") + b"\x01\x70\x01\x02\x80\x01",
        name("env") + name("memory") + b"\x02\0\x10",
        name("env") + name("tag") + b"\x04\0\x03",
        name("GOT.func") + name("looked_up") + b"\x03\x7f\x01",
    ]
    exports = [name(each) + bytes([kind, 0x83, 0x01]) for each, kind in EXPORTS.items()]
    made = b"\0asm\x01\0\0\0"
    for kind, body in (
        (2, bytes([len(imports)]) + b"".join(imports)),
        (7, bytes([len(exports)]) + b"".join(exports)),
        (11, bytes(200)),
    ):
        made += bytes([kind]) + strip.unsigned(len(body)) + body
    return made


def test_an_export_stays_if_a_script_names_it_or_the_module_looks_it_up() -> None:
    assert strip.kept_exports(module(), SCRIPT, STARTER) == KEPT


def test_only_the_list_of_exports_changes() -> None:
    whole, fewer = module(), strip.exporting(module(), KEPT)
    assert {each for each, _, _ in strip.exports(fewer)} == KEPT
    assert list(strip.imports(fewer)) == list(strip.imports(whole))
    assert strip.exporting(whole, set(EXPORTS)) == whole
    assert fewer.endswith(whole[-203:])


def test_the_script_loses_the_lines_of_what_is_gone_and_no_others() -> None:
    assert strip.without_others(SCRIPT, set(EXPORTS)) == SCRIPT
    script = strip.without_others(SCRIPT, KEPT)
    assert "other" not in script
    assert "data" not in script
    assert (
        'var _named,_named_by_starter,wasmMemory;function assignWasmExports(wasmExports){_named=Module["_named"]'
        in script
    )
    assert 'memory=Module["memory"]=wasmMemory=wasmExports["memory"]}' in script
    assert 'wasmExports["named"]=makeWrapper_pp(wasmExports["named"]);run()' in script


def test_a_script_without_the_function_is_not_stripped() -> None:
    with pytest.raises(strip.NotStripped, match="one function"):
        strip.without_others("var first=1;run()", KEPT)


@pytest.mark.parametrize("value", [0, 1, 127, 128, 300, 9598218, 2**32 - 1])
def test_numbers_are_written_as_they_are_read(value: int) -> None:
    assert strip.number(b"\xff" + strip.unsigned(value), 1) == (value, 1 + len(strip.unsigned(value)))


@pytest.fixture
def core(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A stand-in for the folder of Pyodide, and an empty cache."""
    monkeypatch.setattr(runtime, "CACHE", tmp_path / "cache")
    folder = tmp_path / "core"
    for each in (tmp_path / "cache", folder):
        each.mkdir()
    (folder / strip.MODULE).write_bytes(b"the untouched module")
    (folder / strip.SCRIPT).write_text("the untouched script")
    return folder


def fill(answering: Exception | None) -> Callable[[Path, Path, Path], None]:
    def stand_in(core: Path, out: Path, library: Path) -> None:
        if answering:
            raise answering
        (out / strip.MODULE).write_bytes(b"the stripped module")
        (out / strip.SCRIPT).write_text("the stripped script")

    return stand_in


def shipped(core: Path) -> tuple[bytes, str]:
    module, script = runtime.interpreter_for(core, core)
    return gzip.decompress(module.read_bytes()), script.read_text()


def test_the_stripped_one_is_made_once(core: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(runtime, "strip_checked", fill(None))
    assert shipped(core) == (b"the stripped module", "the stripped script")
    monkeypatch.setattr(runtime, "strip_checked", fill(AssertionError("made twice")))
    assert shipped(core) == (b"the stripped module", "the stripped script")


@pytest.mark.parametrize(
    "reason", [runtime.BuildError("There is no tool."), strip.NotStripped("It answers differently.")]
)
def test_what_cannot_be_stripped_is_shipped_untouched_with_a_word(
    core: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], reason: Exception
) -> None:
    monkeypatch.setattr(runtime, "strip_checked", fill(reason))
    for _ in range(2):
        assert shipped(core) == (b"the untouched module", "the untouched script")
        assert str(reason) in capsys.readouterr().out
    monkeypatch.setattr(runtime, "strip_checked", fill(None))
    assert shipped(core) == (b"the stripped module", "the stripped script")


@pytest.mark.parametrize(("stripped", "fits"), [("one answer", True), ("another answer", False)])
def test_answers_must_be_equal_to_the_byte(
    core: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, stripped: str, fits: bool
) -> None:

    def inside(where: Path, _: Path, answers: Path, *, library: Path) -> None:
        assert library.read_bytes() == b"library"
        answers.write_text("one answer" if where == core else stripped)

    for each in (strip.STARTER, "pyodide-lock.json", "package.json"):
        (core / each).write_text("{}")
    (tmp_path / "library").write_bytes(gzip.compress(b"library"))
    (out := tmp_path / "out").mkdir()
    monkeypatch.setattr(strip, "strip", lambda *_: None)
    monkeypatch.setattr(runtime, "inside", inside)
    if fits:
        runtime.strip_checked(core, out, tmp_path / "library")
    else:
        with pytest.raises(strip.NotStripped, match="does not answer"):
            runtime.strip_checked(core, out, tmp_path / "library")
