"""The browser's Python library, made inside Pyodide itself: only what the jobs import, compiled ahead.

`inside.mjs` runs this with three words: the wheel of the package, the archive to write, and a file for the
number of modules. What is imported goes into the archive, so the top imports only what Pyodide itself
has imported by then.

The bytecode loses what only a reader or a debugger asks for: docstrings, asserts and the tables of line numbers,
two fifths of its packed size. Who looks for a failure looks for it in the checkout, where the same call fails too.
"""

from __future__ import annotations

import sys
from pathlib import Path
from types import CodeType

STANDARD_LIBRARY = "/lib/python314.zip"
LEFT_OUT = ("sandmix.doors.cli", "sandmix.__main__")
"""The command line has no place in a browser."""


def main(words: list[str]) -> int:
    """Write the archive, and the number of modules it holds."""
    wheel, archive, count = (f"/host{word}" for word in words)
    sys.path.insert(0, wheel)
    exercise()
    modules = compiled_from(STANDARD_LIBRARY) | compiled_from(wheel)
    write_archive(archive, modules | installed_as(wheel))
    Path(count).write_text(str(len(modules)))
    return 0


def exercise() -> None:
    """Import whatever any job, refusal or failure may ask for, by asking for it."""
    import importlib.metadata
    import json
    import pkgutil
    import traceback

    import sandmix
    from sandmix.doors.facade import call

    for module in pkgutil.walk_packages(sandmix.__path__, "sandmix."):
        if module.name not in LEFT_OUT:
            importlib.import_module(module.name)
    for job in json.loads(call('{"job": "describe"}'))["jobs"]:
        for inputs in (job["example"], {"no such word": "nonsense"}):
            call(json.dumps({"job": job["name"], "inputs": inputs}))
    call("not JSON")
    call('{"job": "no such job"}')
    importlib.metadata.version("sandmix")
    try:
        raise ValueError("a failure")
    except ValueError:
        traceback.format_exc()


def compiled_from(archive: str) -> dict[str, bytes]:
    """The bytecode of every module that was imported from an archive, by its place in the new one."""
    import zipfile

    specs = (getattr(module, "__spec__", None) for module in list(sys.modules.values()))
    origins = (spec.origin for spec in specs if spec and spec.origin)
    places = sorted({origin.removeprefix(f"{archive}/") for origin in origins if origin.startswith(f"{archive}/")})
    with zipfile.ZipFile(archive) as stored:
        return {f"{place}c": bytecode(stored.read(place), place) for place in places}


def bytecode(source: bytes, shown_as: str) -> bytes:
    """What a .pyc file holds whose source is never looked for: magic number, flag, hash of the source, code."""
    import importlib.util
    import marshal

    code = compile(source, shown_as, "exec", dont_inherit=True, optimize=2)
    head = importlib.util.MAGIC_NUMBER + (1).to_bytes(4, "little") + importlib.util.source_hash(source)
    return head + marshal.dumps(without_lines(code))


def without_lines(code: CodeType) -> CodeType:
    """The same code, and all code within it, without its table of line numbers."""
    constants = (without_lines(each) if isinstance(each, CodeType) else each for each in code.co_consts)
    return code.replace(co_linetable=b"", co_consts=tuple(constants))


def installed_as(wheel: str) -> dict[str, bytes]:
    """The name and version by which the package counts as installed."""
    import zipfile

    with zipfile.ZipFile(wheel) as stored:
        return {name: stored.read(name) for name in stored.namelist() if name.endswith(".dist-info/METADATA")}


def write_archive(path: str, contents: dict[str, bytes]) -> None:
    """One zip with nothing squeezed inside, so that gzip over the whole sees all of it at once."""
    import zipfile

    with zipfile.ZipFile(path, "w", zipfile.ZIP_STORED) as archive:
        for name in sorted(contents):
            archive.writestr(zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0)), contents[name])
