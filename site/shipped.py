"""All that the site ships from others, and sandmix itself: each part with its version, its licence and the words of its terms.

The terms are read from the packages' own files. `licences/` holds those of parts that come inside a package without their terms. A part
whose terms are missing, or that nobody has looked at, stops the build.
"""

from __future__ import annotations

import base64
import json
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from importlib.metadata import Distribution, distribution
from pathlib import Path

import bundle
import pack

HERE = Path(__file__).resolve().parent
TERMS = HERE / "licences"
THEME = "mkdocs-material"
LOOKED_AT = "314.0.7"
"""The version of Pyodide whose interpreter the rows below describe."""
INTERPRETER = (
    ("CPython", "3.14.2", "Python-2.0", ("cpython", "cpython-incorporated"), b"3.14.2"),
    ("Emscripten", "5.0.3", "MIT", ("emscripten",), b"5.0.3"),
    ("musl", "", "MIT", ("musl",), b"/emsdk/emscripten/system/lib/"),
    ("LLVM compiler-rt, libc++abi", "", "Apache-2.0 WITH LLVM-exception", ("llvm",), b"system/lib/compiler-rt/"),
    ("zlib", "1.3.1", "Zlib", ("cpython-incorporated",), b" deflate 1.3.1 Copyright"),
    ("bzip2", "", "bzip2-1.0.6", ("bzip2",), b"libbzip2"),
    ("xz", "", "LicenseRef-public-domain", ("xz",), b"liblzma"),
    ("zstd", "1.5.7", "BSD-3-Clause", ("zstd",), b"\x001.5.7\x00"),
    ("SQLite", "3.39.0", "blessing", ("sqlite",), b"3.39.0\x00"),
    ("libffi", "", "MIT", ("cpython-incorporated",), b"ffi_prep_cif"),
    ("expat", "2.7.3", "MIT", ("cpython-incorporated",), b"expat_2.7.3"),
    ("libmpdec", "2.5.1", "BSD-2-Clause", ("cpython-incorporated",), b"\x002.5.1\x00"),
    ("mimalloc", "", "MIT", ("cpython-incorporated",), b"mimalloc: "),
    ("HACL*", "", "MIT", ("cpython-incorporated",), b"./Modules/_hacl/"),
    ("hiwire", "", "MPL-2.0", ("mpl-2.0",), b"hiwire_get"),
)
"""What Pyodide's interpreter links: name, version if it is known, licence, terms, and a text in the WebAssembly that shows it."""
IN_PYODIDE_SCRIPTS = (("stackframe, error-stack-parser", "", "MIT", ("stackframe",)),)
IN_THEME = {
    "clipboard": "MIT",
    "escape-html": "MIT",
    "focus-visible": "W3C",
    "lunr": "MIT",
    "material-design-color": "MIT",
    "rxjs": "Apache-2.0",
    "tslib": "0BSD",
}
"""The packages in the theme's scripts and styles, with their licences."""
ICONS = {
    "material": ("Material Design Icons", "Apache-2.0"),
    "octicons": ("Octicons", "MIT"),
    "fontawesome": ("Font Awesome Free icons", "CC-BY-4.0"),
}
"""The icons in the theme's styles and pages, by the folder of the theme that holds their terms."""


class NoTerms(Exception):
    """The terms of a part are missing or not known: which part, and what to do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One part of the site."""

    name: str
    version: str
    licence: str
    """An SPDX expression."""
    within: str
    """What brings it."""
    terms: tuple[str, ...]
    purl: str = ""
    hashes: Mapping[str, str] = field(default_factory=dict)
    """By algorithm, of the package as its registry gives it."""


def parts(npm: Path, bundled: Iterable[str]) -> list[Part]:
    """Every part: sandmix, what is bundled from npm, Pyodide with what it links, and the theme with what it holds."""
    packages = [npm_part(npm, name, "the page's scripts") for name in bundled]
    return [own(), *packages, *pyodide(npm), *theme(distribution(THEME))]


def own() -> Part:
    """Sandmix itself."""
    project = tomllib.loads((pack.ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    name, version = project["name"], pack.version()
    terms = read(pack.ROOT / "LICENSE", name)
    return Part(
        name=name, version=version, licence=project["license"], within="this site", terms=(terms,),
        purl=f"pkg:pypi/{name}@{version}",
    )  # fmt: skip


def npm_part(npm: Path, name: str, within: str, terms: tuple[str, ...] = ()) -> Part:
    """A package of npm, with its hash from the lock."""
    about = json.loads(read(npm / name / "package.json", name))
    locked = json.loads((HERE / "package-lock.json").read_text("utf-8"))["packages"].get(f"node_modules/{name}", {})
    algorithm, _, digest = locked.get("integrity", "").partition("-")
    return Part(
        name=name,
        version=about["version"],
        licence=about["license"],
        within=within,
        terms=terms or (read(next(iter(sorted((npm / name).glob("LICENSE*"))), npm / name / "LICENSE"), name),),
        purl=f"pkg:npm/{name.replace('@', '%40')}@{about['version']}",
        hashes={f"SHA-{algorithm.removeprefix('sha')}": base64.b64decode(digest).hex()} if digest else {},
    )


def pyodide(npm: Path) -> list[Part]:
    """Pyodide, and what its scripts and its interpreter hold."""
    whole = npm_part(npm, "pyodide", "the calculator", (kept("mpl-2.0", "pyodide"),))
    if whole.version != LOOKED_AT:
        raise NoTerms(
            f"Pyodide is now {whole.version}, but what its interpreter links was looked at for {LOOKED_AT}: "
            "look at it again, then change INTERPRETER and LOOKED_AT in site/shipped.py."
        )
    rows = (*(row[:4] for row in INTERPRETER), *IN_PYODIDE_SCRIPTS)
    return [whole, *(inner(*row, within="Pyodide") for row in rows)]


def inner(name: str, version: str, licence: str, terms: Iterable[str], *, within: str) -> Part:
    """A part that comes inside another, with terms that are kept here."""
    texts = tuple(kept(each, name) for each in terms)
    return Part(name=name, version=version, licence=licence, within=within, terms=texts)


def theme(whole: Distribution) -> list[Part]:
    """The theme, the packages in its scripts and styles, and its icons."""
    folder = Path(str(whole.locate_file("material/templates")))
    [path] = [
        Path(str(whole.locate_file(each)))
        for each in whole.files or ()
        if each.name == "LICENSE" and "licenses" in each.parts
    ]
    found = in_theme(folder)
    if unknown := sorted(found - IN_THEME.keys()):
        raise NoTerms(
            f"The theme's scripts or styles hold {', '.join(unknown)}, whose terms are not known: "
            "put them into site/licences and add a row to IN_THEME in site/shipped.py."
        )
    theme_part = Part(
        name=THEME, version=whole.version, licence="MIT", within="this site", terms=(read(path, THEME),),
        purl=f"pkg:pypi/{THEME}@{whole.version}",
    )  # fmt: skip
    packages = [
        Part(
            name=name,
            version="",
            licence=IN_THEME[name],
            within=THEME,
            terms=(kept(name, name),),
            purl=f"pkg:npm/{name}",
        )
        for name in sorted(found)
    ]
    icons = [
        Part(name=name, version="", licence=licence, within=THEME, terms=(icon_terms(folder / ".icons" / place, name),))
        for place, (name, licence) in ICONS.items()
    ]
    return [theme_part, *packages, *icons]


def in_theme(folder: Path) -> set[str]:
    """The packages of npm in the theme's scripts and styles, as their source maps name them."""
    maps = [path for path in (folder / "assets").rglob("*.map") if "lunr" not in path.parts]
    if not maps:
        raise NoTerms(f"{THEME} has no source maps, so nobody can tell what is in its scripts: look at them.")
    sources = (source for path in maps for source in json.loads(path.read_text("utf-8"))["sources"])
    return {found[1] for source in sources if (found := bundle.PACKAGE.search(source))}


def icon_terms(folder: Path, name: str) -> str:
    """The terms of a set of icons."""
    return read(next(iter(sorted(folder.glob("LICENSE*"))), folder / "LICENSE"), name)


def kept(terms: str, part: str) -> str:
    """Terms that are kept here."""
    return read(TERMS / f"{terms}.txt", part)


def read(path: Path, part: str) -> str:
    """The words of a file; NoTerms if it is missing or empty."""
    words = path.read_text("utf-8").strip() if path.is_file() else ""
    if not words:
        raise NoTerms(f"The terms of {part} are missing ({path.name}): find them before it is shipped.")
    return words
