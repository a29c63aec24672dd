"""Measure how fast a shape is read and measured, in plain Python and inside Pyodide, and its memory: balls of 1 k to 1 M facets, binary STL.

    python tests/bench/meshes.py [facets ...]

Times are the best of three in this process; memory is the peak of tracemalloc plus the file's own bytes, as a multiple of the file.
"""

from __future__ import annotations

import json
import math
import struct
import subprocess
import sys
import time
import tracemalloc
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
if str(ROOT) not in sys.path:
    sys.path[:0] = [str(ROOT), str(ROOT / "site")]

SIZES = (1_000, 10_000, 100_000, 1_000_000)


def ball(facets: int) -> bytes:
    """A ball of about that many facets, radius 40, as binary STL: rings of latitude, cut into triangles."""
    rings = max(3, round(math.sqrt(facets / 4)))
    around = 2 * rings
    parts = []
    record = struct.Struct("<12x9f2x")

    def at(ring: int, place: int) -> tuple[float, float, float]:
        tilt, turn = math.pi * ring / rings, 2 * math.pi * (place % around) / around
        r = 0.0 if ring in (0, rings) else 40 * math.sin(tilt)
        return r * math.cos(turn) if r else 0.0, r * math.sin(turn) if r else 0.0, 40 * math.cos(tilt)

    for ring in range(rings):
        for place in range(around):
            a, b = at(ring, place), at(ring, place + 1)
            c, d = at(ring + 1, place), at(ring + 1, place + 1)
            if ring:
                parts.append(record.pack(*a, *c, *b))
            if ring < rings - 1:
                parts.append(record.pack(*b, *c, *d))
    return b"\0" * 80 + len(parts).to_bytes(4, "little") + b"".join(parts)


def measured(data: bytes) -> float:
    """The seconds to read and measure a shape."""
    from sandmix.mesh import mesh_file, solid

    began = time.process_time()
    found = solid.measure(mesh_file.opened(data))
    spent = time.process_time() - began
    truth = 4 / 3 * math.pi * 40**3
    if found.trust != solid.RIGHT or found.volume is None or not 0.9 < found.volume / truth < 1:
        raise SystemExit(f"a ball of {found.volume} instead of a little less than {truth}: {found.why}")
    return spent


def peak(data: bytes) -> float:
    """The peak of memory during the measurement, including the file, as a multiple of the file."""
    from sandmix.mesh import mesh_file, solid

    tracemalloc.start()
    solid.measure(mesh_file.opened(data))
    highest = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return 1 + highest / len(data)


def main(words: list[str]) -> int:
    """Print one line for each size; inside Pyodide, write seconds and memory to the given file."""
    inside = words[:1] == ["--into"]
    sizes = tuple(int(word) for word in words[2 if inside else 0 :]) or SIZES
    rows = []
    for size in sizes:
        data = ball(size)
        best = min(measured(data) for _ in range(3 if size <= 100_000 else 1))
        rows.append((int.from_bytes(data[80:84], "little"), best, 0.0 if inside else peak(data)))
    if inside:
        Path(f"/host{words[1]}").write_text(json.dumps(rows), "utf-8")
        return 0
    there = in_pyodide(sizes)
    print(f"{'facets':>9} {'here s':>8} {'a second':>10} {'× file':>7} {'in the page s':>14} {'a second':>10}")
    for (facets, here, times), (_, page, _) in zip(rows, there, strict=True):
        print(f"{facets:>9} {here:>8.3f} {facets / here:>10.0f} {times:>7.2f} {page:>14.3f} {facets / page:>10.0f}")
    return 0


def in_pyodide(sizes: tuple[int, ...], script_name: str = "meshes") -> list[tuple[Any, ...]]:
    """The rows of a script of this folder, under Node.js with the library of the checkout."""
    import tempfile

    import runtime

    node, _ = runtime.node_tools()
    with tempfile.TemporaryDirectory() as folder:
        said, script = Path(folder) / "said.json", Path(folder) / "inside.py"
        script.write_text(
            "import sys\n\n\ndef main(words):\n"
            f"    sys.path.insert(0, '/host{ROOT}')\n    sys.path.insert(0, '/host{ROOT / 'tests/bench'}')\n"
            f"    import {script_name}\n\n    return {script_name}.main(list(words))\n",
            "utf-8",
        )
        command = [*node, str(ROOT / "site/inside.mjs"), str(runtime.core_folder()), str(script), "--into", str(said)]
        subprocess.run([*command, *map(str, sizes)], check=True)
        return [tuple(row) for row in json.loads(said.read_text("utf-8"))]


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
