"""Strip Pyodide's WebAssembly of what it exports only for side modules, which this page never loads.

Its thousands of exports keep nearly all of its functions alive, and each is put into a table at every start. Here stay the exports that
its own script and `pyodide.mjs` name; the script loses its lines for the others; and Binaryen's `wasm-opt` removes what nothing
needs any more. `runtime.py` compares the answers of both.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path

MODULE, SCRIPT, STARTER = "pyodide.asm.wasm", "pyodide.asm.mjs", "pyodide.mjs"
IMPORTS, EXPORTS = 2, 7
FUNCTION, TABLE, MEMORY, GLOBAL, TAG = range(5)
FEATURES = (
    "exception-handling",
    "bulk-memory",
    "mutable-globals",
    "sign-ext",
    "nontrapping-float-to-int",
    "reference-types",
    "multivalue",
)
"""What the module uses beyond the first version of WebAssembly."""
STEPS = ("--remove-unused-module-elements",)
TAKING = "function assignWasmExports(wasmExports){"
TAKEN = re.compile(r'(\w+)=Module\["\1"\]=wasmExports\["(\w+)"\](?:\.value>>>0)?;?')
WRAPPED = re.compile(r'wasmExports\["(\w+)"\]=makeWrapper_\w+\(wasmExports\["\1"\]\);')
NAME = re.compile(r"[A-Za-z_$][\w$]*")

Optimize = Callable[[list[str]], object]


class NotStripped(Exception):
    """Pyodide's files differ from what this file expects: what is missing."""


def strip(core: Path, out: Path, optimize: Optimize) -> None:
    """Write the module and its script, both smaller, into `out`; `optimize` runs `wasm-opt` with the words that it is given."""
    module, script = (core / MODULE).read_bytes(), (core / SCRIPT).read_text("utf-8")
    kept = kept_exports(module, script, (core / STARTER).read_text("utf-8"))
    fewer = out / "fewer.wasm"
    fewer.write_bytes(exporting(module, kept))
    features = [f"--enable-{feature}" for feature in FEATURES]
    optimize([str(fewer), "-o", str(out / MODULE), "--mvp-features", *features, *STEPS])
    fewer.unlink()
    (out / SCRIPT).write_text(without_others(script, kept), encoding="utf-8")


def kept_exports(module: bytes, script: str, starter: str) -> set[str]:
    """The exports that a script names elsewhere than in the lines that only take them over, and those that the module itself looks up."""
    before, _, taking, after = parts(script)
    users = f"{before}{WRAPPED.sub('', after)}{starter}"
    names, taken = set(NAME.findall(users)), {export: name for name, export in TAKEN.findall(taking)}
    looked_up = {name for source, name in imports(module) if source.startswith("GOT.")}
    return {
        name
        for name, kind, _ in exports(module)
        if kind not in (FUNCTION, GLOBAL)
        or name in looked_up
        or not names.isdisjoint((name, f"_{name}"))
        or taken.get(name) in names
        or f'"{name}"' in users
    }


def parts(script: str) -> tuple[str, str, str, str]:
    """The script in four: up to the list of names for exports, this list, the function that takes them over, and the rest."""
    at = script.find(TAKING)
    end, start = script.find("}", at), script.rfind("var ", 0, max(at, 0))
    if min(at, start) < 0 or not TAKEN.search(script[at:end]):
        raise NotStripped(f"{SCRIPT} no longer takes over its exports in one function.")
    return script[:start], script[start:at], script[at:end], script[end:]


def without_others(script: str, kept: set[str]) -> str:
    """The script without its names for exports that are gone, and without the lines that take them over."""
    before, names, taking, after = parts(script)
    gone = {name for name, export in TAKEN.findall(taking) if export not in kept}
    declared = (name for name in names.removeprefix("var ").rstrip(";").split(",") if name not in gone)
    taking = TAKEN.sub(lambda found: found[0] if found[2] in kept else "", taking)
    after = WRAPPED.sub(lambda found: found[0] if found[1] in kept else "", after)
    return f"{before}var {','.join(declared)};{taking}{after}"


def exporting(module: bytes, kept: set[str]) -> bytes:
    """The module with these exports only."""
    entries = [entry for name, _, entry in exports(module) if name in kept]
    fewer = unsigned(len(entries)) + b"".join(entries)
    pieces = [module[:8]]
    for kind, start, end in sections(module):
        body = fewer if kind == EXPORTS else module[start:end]
        pieces.append(bytes([kind]) + unsigned(len(body)) + body)
    return b"".join(pieces)


def exports(module: bytes) -> Iterator[tuple[str, int, bytes]]:
    """The name, the kind and the bytes of each export."""
    at = section(module, EXPORTS)
    count, at = number(module, at)
    for _ in range(count):
        start = at
        name, at = text(module, at)
        kind, (_, at) = module[at], number(module, at + 1)
        yield name, kind, module[start:at]


def imports(module: bytes) -> Iterator[tuple[str, str]]:
    """The source and the name of each import."""
    at = section(module, IMPORTS)
    count, at = number(module, at)
    for _ in range(count):
        source, at = text(module, at)
        name, at = text(module, at)
        at = after_type(module, at)
        yield source, name


def after_type(module: bytes, at: int) -> int:
    """The place after the kind and the type of an import."""
    kind, at = module[at], at + 1
    if kind == GLOBAL:
        return at + 2
    if kind in (TABLE, TAG):
        at += 1
    if kind in (TABLE, MEMORY):
        flags, at = number(module, at)
        at = number(module, at)[1] if flags & 1 else at
    return number(module, at)[1]


def section(module: bytes, wanted: int) -> int:
    """Where the contents of a section begin."""
    for kind, start, _ in sections(module):
        if kind == wanted:
            return start
    raise NotStripped(f"{MODULE} has no section {wanted}.")


def sections(module: bytes) -> Iterator[tuple[int, int, int]]:
    """The kind of each section, and where its contents begin and end."""
    at = 8
    while at < len(module):
        kind = module[at]
        length, at = number(module, at + 1)
        yield kind, at, at + length
        at += length


def text(module: bytes, at: int) -> tuple[str, int]:
    """A name, and the place after it."""
    length, at = number(module, at)
    return module[at : at + length].decode("utf-8"), at + length


def number(module: bytes, at: int) -> tuple[int, int]:
    """An unsigned number of seven bits a byte, the lowest first, and the place after it."""
    value = shift = 0
    while True:
        value |= (module[at] & 0x7F) << shift
        shift, at = shift + 7, at + 1
        if module[at - 1] < 0x80:
            return value, at


def unsigned(value: int) -> bytes:
    """A number of seven bits a byte, the lowest first."""
    out = bytearray()
    while value > 0x7F:
        out.append(value & 0x7F | 0x80)
        value >>= 7
    return bytes([*out, value])
