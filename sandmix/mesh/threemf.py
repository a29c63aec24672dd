"""3MF into facets: the items of the build, each with its transform and its components, in the unit that the model names.

A package is a zip with a model in XML. A DTD is refused, so that no entity can expand; sizes are limited before and after unpacking.
Source: threemf_core.
"""

from __future__ import annotations

from array import array
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from xml.parsers import expat

from sandmix.mesh.archive import Archive
from sandmix.mesh.facets import SAVE_AGAIN, Corners, Facets, NotAMesh

MOST_BYTES = 768_000_000
MOST_TIMES_PACKED = 50
ALWAYS_ALLOWED = 4_000_000
MOST_PLACED = 20_000
MOST_TIMES_HELD = 20
FACETS_ALWAYS_ALLOWED = 100_000
DEEPEST = 16
MM = {
    "micron": 0.001,
    "millimeter": 1.0,
    "centimeter": 10.0,
    "inch": 25.4,
    "foot": 304.8,
    "meter": 1000.0,
}  # mm in one unit
_RELATIONS = "_rels/.rels"
_MODEL_KIND = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"

Transform = tuple[float, ...]
IDENTITY: Transform = (1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0)


@dataclass(slots=True)
class _Object:
    """One object of the model: its own mesh, or components of others."""

    kind: str = "model"
    xyz: array[float] = field(default_factory=lambda: array("d"))
    corners: array[int] = field(default_factory=lambda: array("I"))
    parts: list[tuple[str, Transform]] = field(default_factory=list)


@dataclass(slots=True)
class _Model:
    """What the XML says."""

    unit: str = "millimeter"
    objects: dict[str, _Object] = field(default_factory=dict)
    items: list[tuple[str, Transform]] = field(default_factory=list)
    open: _Object | None = None

    @property
    def facets(self) -> int:
        """How many facets it holds, each once."""
        return sum(len(held.corners) for held in self.objects.values()) // 3


def read(data: bytes | memoryview) -> Facets:
    """Return the facets of all items of the build; raises NotAMesh in words."""
    model = _parsed(_model_in(data))
    facets = Facets(unit=model.unit)
    items = model.items or [(key, IDENTITY) for key in model.objects]
    build = _Build(model=model, facets=facets, corners=Corners(facets))
    for key, transform in items:
        build.put(key, transform, ())
    if not facets.corners:
        raise NotAMesh("no item of its build has a facet. Save the shape again.")
    remarks = []
    if not model.items:
        remarks.append("The file has no list of things to build, so all of its objects are used.")
    if len(items) > 1:
        remarks.append(f"The file builds {len(items)} things. They are measured together, as one casting.")
    facets.remarks = tuple(remarks)
    return facets


def _model_in(data: bytes | memoryview) -> Iterator[bytes]:
    archive = Archive(data)
    most = min(MOST_BYTES, max(ALWAYS_ALLOWED, MOST_TIMES_PACKED * len(data)))
    name = "3d/3dmodel.model"
    if _RELATIONS in archive.files:
        name = _target(archive.pieces(_RELATIONS, ALWAYS_ALLOWED)) or name
    if name not in archive.files:
        models = [other for other in archive.files if other.endswith(".model")]
        if len(models) != 1:
            raise NotAMesh("this archive has no model in it, so it is no 3MF. Send the STL or the 3MF itself.")
        name = models[0]
    return archive.pieces(name, most)


def _target(content: Iterator[bytes]) -> str:
    found: list[str] = []

    def start(name: str, attributes: dict[str, str]) -> None:
        if _local(name) == "Relationship" and attributes.get("Type") == _MODEL_KIND:
            found.append(attributes.get("Target", "").lstrip("/").lower())

    _parse(content, start, None)
    return found[0] if found else ""


def _local(name: str) -> str:
    return name.rpartition(":")[2]


def _parse(
    content: Iterator[bytes], start: Callable[[str, dict[str, str]], None], end: Callable[[str], None] | None
) -> None:
    parser = expat.ParserCreate()
    parser.StartDoctypeDeclHandler = _no_doctype
    parser.StartElementHandler = start
    parser.EndElementHandler = end
    try:
        for piece in content:
            parser.Parse(piece, False)
        parser.Parse(b"", True)
    except expat.ExpatError as error:
        raise NotAMesh(f"from line {error.lineno} on its model is no valid XML. {SAVE_AGAIN}") from None
    except (KeyError, ValueError, OverflowError):
        raise NotAMesh(f"near line {parser.CurrentLineNumber} of its model a number is missing. {SAVE_AGAIN}") from None


def _no_doctype(*_: object) -> None:
    raise NotAMesh("its model has a DTD, which a 3MF must not have. Save it again from another program, or as STL.")


def _parsed(content: Iterator[bytes]) -> _Model:
    model = _Model()
    objects = model.objects

    def start(name: str, attributes: dict[str, str]) -> None:
        held = model.open
        if ":" in name:
            name = _local(name)
        if name == "vertex" and held is not None:
            held.xyz.extend((float(attributes["x"]), float(attributes["y"]), float(attributes["z"])))
        elif name == "triangle" and held is not None:
            held.corners.extend((int(attributes["v1"]), int(attributes["v2"]), int(attributes["v3"])))
        elif name == "object":
            model.open = objects[attributes["id"]] = _Object(kind=attributes.get("type", "model"))
        elif name == "component" and held is not None:
            _refuse_second_model(attributes)
            held.parts.append((attributes["objectid"], _transform(attributes.get("transform"))))
        elif name == "item":
            _refuse_second_model(attributes)
            model.items.append((attributes["objectid"], _transform(attributes.get("transform"))))
        elif name == "model":
            model.unit = attributes.get("unit", "millimeter")
            if model.unit not in MM:
                raise NotAMesh(f"its unit “{model.unit[:20]}” is not one of the units of a 3MF. {SAVE_AGAIN}")

    def end(name: str) -> None:
        if _local(name) == "object":
            model.open = None

    _parse(content, start, end)
    return model


def _refuse_second_model(attributes: dict[str, str]) -> None:
    if any(_local(key) == "path" for key in attributes):
        raise NotAMesh("parts of its model are in a second model file. Save it as one model, or as STL.")


def _transform(text: str | None) -> Transform:
    if text is None:
        return IDENTITY
    numbers = tuple(float(part) for part in text.split())
    if len(numbers) != 12:
        raise ValueError(text)
    if not all(abs(number) < 1e9 for number in numbers):
        raise NotAMesh(f"a number of one of its transforms is too large. {SAVE_AGAIN}")
    return numbers


@dataclass(slots=True, kw_only=True)
class _Build:
    """The facets of the build, and how many objects were put into it."""

    model: _Model
    facets: Facets
    corners: Corners
    placed: int = 0

    def put(self, key: str, transform: Transform, above: tuple[str, ...]) -> None:
        """Add the object *key*, moved by *transform*; *above* are the objects that contain it."""
        if key in above:
            raise NotAMesh(f"its object {key[:20]} is a part of itself. {SAVE_AGAIN}")
        if key not in self.model.objects:
            raise NotAMesh(f"its build names object {key[:20]}, which is missing. {SAVE_AGAIN}")
        if len(above) >= DEEPEST:
            raise NotAMesh(f"its objects contain each other more than {DEEPEST} levels deep. Save it as one shape.")
        held = self.model.objects[key]
        self.placed += 1
        if self.placed > MOST_PLACED or len(self.facets) + len(held.corners) // 3 > self._most:
            raise NotAMesh("it repeats its objects too often to be read. Save it as one shape.")
        if held.kind in ("support", "other"):
            return
        if held.corners:
            self._put_mesh(held, transform)
        for part, moved in held.parts:
            self.put(part, combined(moved, transform), (*above, key))

    @property
    def _most(self) -> int:
        return max(FACETS_ALWAYS_ALLOWED, MOST_TIMES_HELD * self.model.facets)

    def _put_mesh(self, held: _Object, transform: Transform) -> None:
        a, b, c, d, e, f, g, h, i, tx, ty, tz = transform
        xyz, at = held.xyz, self.corners.at
        count = len(xyz) // 3
        if max(held.corners) >= count:
            raise NotAMesh(
                f"a facet uses corner {max(held.corners)}, and there are {count}, counted from 0. {SAVE_AGAIN}"
            )
        placed = [0] * count
        for corner in set(held.corners):
            x, y, z = xyz[3 * corner : 3 * corner + 3]
            placed[corner] = at(x * a + y * d + z * g + tx, x * b + y * e + z * h + ty, x * c + y * f + z * i + tz)
        turned = iter(held.corners)
        if a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g) < 0:
            for first, second, third in zip(turned, turned, turned, strict=True):
                self.facets.corners.extend((placed[first], placed[third], placed[second]))
        else:
            self.facets.corners.extend(placed[corner] for corner in turned)


def combined(inner: Transform, outer: Transform) -> Transform:
    """Return the transform that does *inner* first and then *outer*; four rows of three as in a 3MF, the last one the shift.

    >>> shift = (1, 0, 0, 0, 1, 0, 0, 0, 1, 5, 0, 0)
    >>> double = (2, 0, 0, 0, 2, 0, 0, 0, 2, 0, 0, 0)
    >>> combined(shift, double)[9], combined(double, shift)[9]
    (10, 5)
    """
    rows = [inner[at : at + 3] for at in (0, 3, 6, 9)]
    columns = [outer[at:9:3] for at in (0, 1, 2)]
    moved = [sum(x * y for x, y in zip(row, column, strict=True)) for row in rows for column in columns]
    return (*moved[:9], *(value + outer[9 + at] for at, value in enumerate(moved[9:])))
