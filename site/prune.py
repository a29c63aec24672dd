"""Make the browser's Python library inside Pyodide itself: only what the jobs import, compiled ahead of time.

`inside.mjs` runs this with three arguments: the wheel of the package, the archive to write, and a file for the
number of modules. Every imported module goes into the archive, so this file imports at its top only what Pyodide
itself has imported by then.

The bytecode leaves out what only readers and debuggers need: docstrings, asserts and the tables of line numbers,
40 % of its packed size. To find the cause of a failure, make the same call in the checkout: it fails there too.
"""

from __future__ import annotations

import sys
from pathlib import Path
from types import CodeType

STANDARD_LIBRARY = "/lib/python314.zip"
COMMAND_LINE = (
    "terminal", "spelling", "commands", "options", "completion", "printing", "document_file", "documents", "watch", "cli",
)  # fmt: skip
PYTHON = ("sandmix.ask", *(f"sandmix.python.{name}" for name in ("notebook", "answered", "functions")))
GLOSSARY = "sandmix.vocabulary.glossary_words"
"""The site has it in a file of its own."""
LEFT_OUT = (*(f"sandmix.doors.{name}" for name in COMMAND_LINE), *PYTHON, "sandmix.__main__", GLOSSARY)
"""The command line and the functions of Python are of no use in a browser."""


def main(words: list[str]) -> int:
    """Write the archive, and the number of modules it holds."""
    wheel, archive, count = (f"/host{word}" for word in words)
    sys.path.append(str(Path(main.__code__.co_filename).parent))
    import dataclass_code

    sys.path.insert(0, wheel)
    texts = dataclass_code.noted()
    exercise()
    modules = compiled_from(STANDARD_LIBRARY) | compiled_from(wheel)
    modules[f"{dataclass_code.MODULE}c"] = bytecode(dataclass_code.module(texts, without_lines), dataclass_code.MODULE)
    write_archive(archive, modules | installed_as(wheel))
    Path(count).write_text(str(len(modules)))
    return 0


def exercise() -> None:
    """Import everything that a job, a refusal or a failure may need, by causing each of them."""
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
    """The bytecode of every module that was imported from an archive, by its path in the new one."""
    import zipfile

    specs = (getattr(module, "__spec__", None) for module in list(sys.modules.values()))
    origins = (spec.origin for spec in specs if spec and spec.origin)
    places = sorted({origin.removeprefix(f"{archive}/") for origin in origins if origin.startswith(f"{archive}/")})
    with zipfile.ZipFile(archive) as stored:
        return {f"{place}c": bytecode(source_of(place, stored.read(place)), place) for place in places}


def source_of(place: str, source: bytes) -> bytes:
    """The source of a module as the browser gets it."""
    import dataclass_code

    return dataclass_code.changed(source) if place == dataclass_code.PLACE else source


def bytecode(source: bytes, shown_as: str) -> bytes:
    """The contents of a .pyc file that is used without its source: magic number, flag, hash of the source, code."""
    import importlib.util
    import marshal

    code = compile(source, shown_as, "exec", dont_inherit=True, optimize=2)
    head = importlib.util.MAGIC_NUMBER + (1).to_bytes(4, "little") + importlib.util.source_hash(source)
    return head + marshal.dumps(without_lines(code))


def without_lines(code: CodeType) -> CodeType:
    """The same code, and all code within it, without tables of line numbers."""
    constants = (without_lines(each) if isinstance(each, CodeType) else each for each in code.co_consts)
    return code.replace(co_linetable=b"", co_consts=tuple(constants))


def installed_as(wheel: str) -> dict[str, bytes]:
    """The metadata that make the package count as installed: its name and version."""
    import zipfile

    with zipfile.ZipFile(wheel) as stored:
        return {name: stored.read(name) for name in stored.namelist() if name.endswith(".dist-info/METADATA")}


def write_archive(path: str, contents: dict[str, bytes]) -> None:
    """Write a zip without compression inside, so that gzip over the whole works on all of it at once."""
    import zipfile

    with zipfile.ZipFile(path, "w", zipfile.ZIP_STORED) as archive:
        for name in sorted(contents):
            archive.writestr(zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0)), contents[name])
