"""Measure how fast thick places are found, in plain Python and inside Pyodide, and how far they are off: balls of 1 k to 1 M facets, and others.

    python tests/bench/thickness.py [facets ...]

A row has the seconds to read and measure the shape, and those to find its thick places on top of that: the best of three, in processor time
of this process. The deviation is that of the largest ball from the true one, in percent.
"""

from __future__ import annotations

import json
import math
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
for folder in (ROOT, ROOT / "site", ROOT / "tests", ROOT / "tests" / "bench"):
    if str(folder) not in sys.path:
        sys.path.insert(0, str(folder))

import meshes  # noqa: E402  from this folder
import shapes  # noqa: E402

Row = tuple[str, int, float, float, float]


def others() -> dict[str, tuple[bytes, float]]:
    """Shapes with few, long or many small facets, and the radius of their largest ball."""
    fine = 400
    return {
        "plate": (shapes.binary(shapes.box(200, 150, 6)), 3),
        "L": (shapes.binary(shapes.bar(shapes.l_section(10, 60), 100)), 5 * 2 * math.sqrt(2) / (1 + math.sqrt(2))),
        "ribs": (shapes.binary(shapes.bar(shapes.ribbed_section(6, 10, (25, 60, 95)), 150)), 5),
        "torus": (shapes.binary(shapes.torus(40, 8, 220)), 8 * math.cos(math.pi / 220)),
        "slivers": (
            shapes.binary(shapes.lathe([(0, 0), (20, 0), (20, 60), (0, 60)], 20 * fine)),
            20 * math.cos(math.pi / fine / 20),
        ),
        "pins": (
            shapes.binary([facet for at in range(900) for facet in shapes.cube(1, (2 * (at % 30), at // 30 * 2, 0))]),
            0.5,
        ),
    }


def measured(name: str, data: bytes, radius: float, times: int) -> Row:
    """One row: name, facets, seconds of the rest, seconds for the thick places, deviation in percent."""
    from sandmix.mesh import mesh_file, solid
    from sandmix.thickness.hot_places import thickness_of

    rest = own = math.inf
    for _ in range(times):
        began = time.process_time()
        shape = solid.measure(mesh_file.opened(data))
        middle = time.process_time()
        found = thickness_of(shape)
        rest, own = min(rest, middle - began), min(own, time.process_time() - middle)
    if found is None:
        raise SystemExit(f"{name}: no thick place")
    largest = max(place.radius for place in found.places)
    return name, shape.facets, rest, own, 100 * (largest / radius - 1)


def rows(sizes: tuple[int, ...]) -> list[Row]:
    """The rows of all shapes."""
    found = []
    for size in sizes:
        rings = max(3, round(math.sqrt(size / 4)))
        # the nearest facets of a ball of latitude rings: near the equator, between two meridians and two rings
        inner = 40 * math.cos(math.pi / 2 / rings) * (math.cos(math.pi / 2 / rings) if rings % 2 else 1)
        found.append(measured("ball", meshes.ball(size), inner, 3 if size <= 100_000 else 1))
    return found + [measured(name, data, radius, 3) for name, (data, radius) in others().items()]


def main(words: list[str]) -> int:
    """Print one line for each shape; inside Pyodide, write the rows to the given file."""
    inside = words[:1] == ["--into"]
    sizes = tuple(int(word) for word in words[2 if inside else 0 :]) or meshes.SIZES
    here = rows(sizes)
    if inside:
        Path(f"/host{words[1]}").write_text(json.dumps(here), "utf-8")
        return 0
    there = meshes.in_pyodide(sizes, "thickness")
    print(f"{'shape':>8} {'facets':>8} {'rest s':>8} {'here s':>8} {'off %':>7} {'in the page: rest s':>20} {'s':>8}")
    for (name, facets, rest, own, off), (_, _, page_rest, page, _) in zip(here, there, strict=True):
        print(f"{name:>8} {facets:>8} {rest:>8.3f} {own:>8.3f} {off:>7.2f} {page_rest:>20.3f} {page:>8.3f}")
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
