"""Try thousands of shapes damaged on purpose: never a crash, never a wait over 2 s, never a wrong volume reported as right.

    python tests/bench/fuzz_meshes.py [how many] [seed]

A volume reported as right is checked in another way: random points, and whether the facets wind around them (solid angles, NumPy).
"""

from __future__ import annotations

import io
import random
import sys
import time
import zipfile
from collections import Counter
from pathlib import Path
from xml.etree import ElementTree

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from shapes import Triangles, binary, cube, model, package, ring, text  # noqa: E402  found only once the path is set

from sandmix.mesh import mesh_file, solid  # noqa: E402
from sandmix.mesh.facets import NotAMesh  # noqa: E402
from sandmix.thickness.hot_places import thickness_of  # noqa: E402

LONGEST_S = 2.0
PLACES = 600
SHAPES = [
    cube(),
    cube(inward=True),
    cube() + cube(at=(15.0, 3.0, 2.0)),
    cube() + cube(4.0, (3.0, 3.0, 3.0), inward=True),
    cube() + cube(at=(5.0, 5.0, 5.0)),
    ring(),
]


def damaged(chance: random.Random) -> tuple[str, bytes]:
    """A file and the damage done to it: first to facets, if the draw says so, then to bytes."""
    triangles = list(chance.choice(SHAPES))
    done = []
    for _ in range(chance.choice((0, 0, 1, 1, 2, 4))):
        done.append(chance.choice(("drop", "flip", "twice", "move", "swap", "nudge", "same", "far")))
        triangles = _hurt(triangles, done[-1], chance)
    kind = chance.choice(("binary", "binary", "text", "3mf"))
    times = chance.choice((0, 0, 0, 1, 2)) if done else chance.choice((1, 1, 2, 8))
    if kind == "3mf":
        content = model(triangles)
        if chance.random() < 0.6:
            content = _bytes_hurt(content, times, chance)
            return f"{done} xml {times}", package(content, chance.choice((zipfile.ZIP_DEFLATED, zipfile.ZIP_STORED)))
        return f"{done} zip {times}", _bytes_hurt(package(content), times, chance)
    header = chance.choice((b"", b"solid x", b"solid"))
    data = binary(triangles, header) if kind == "binary" else text(triangles)
    return f"{done} {kind} {times}", _bytes_hurt(data, times, chance)


def _hurt(triangles: Triangles, how: str, chance: random.Random) -> Triangles:
    if not triangles:
        return triangles
    at = chance.randrange(len(triangles))
    facet = triangles[at]
    found = list(triangles)
    if how == "drop":
        del found[at]
    elif how == "flip":
        found[at] = facet[::-1]
    elif how == "twice":
        found.append(facet if chance.random() < 0.5 else facet[::-1])
    elif how == "swap":
        chance.shuffle(found)
    elif how == "same":
        found[at] = (facet[0], facet[0], facet[2])
    else:
        corner = chance.choice(facet)
        by = {"move": 20.0, "nudge": 1e-5, "far": 1e6}[how]
        moved = tuple(value + chance.uniform(-by, by) for value in corner)
        whole = chance.random() < 0.7
        found = [
            tuple(moved if place == corner and (whole or number == at) else place for place in each)
            for number, each in enumerate(found)
        ]
    return found


def _bytes_hurt(data: bytes, times: int, chance: random.Random) -> bytes:
    held = bytearray(data)
    for _ in range(times):
        at = chance.randrange(len(held)) if held else 0
        how = chance.choice((0, 0, 0, 1, 1, 1, 2, 3, 4, 5, 6, 7, 7))
        if how == 0 and held:
            held[at] ^= 1 << chance.randrange(8)
        elif how == 1 and held:
            held[at] = chance.randrange(256)
        elif how == 2:
            del held[at : at + chance.choice((1, 2, 4, 12, 50, 200))]
        elif how == 3:
            held[at:at] = chance.randbytes(chance.choice((1, 4, 50)))
        elif how == 4:
            del held[at:]
        elif how == 5:
            held[at:at] = held[at : at + chance.choice((4, 12, 50, 100))]
        elif how == 6 and len(held) > 84:
            held[80:84] = chance.randbytes(4)
        elif how == 7:
            held[at : at + 4] = chance.choice((b"\xff\xff\xff\x7f", b"\0\0\x80\x7f", b"\0\0\0\x80", b"1e99", b"nan "))
    return bytes(held)


def understood(data: bytes) -> np.ndarray | None:
    """The facets as another reader gets them, if it can read the file."""
    if data[:2] == b"PK":
        return _of_package(data)
    count = int.from_bytes(data[80:84], "little")
    if len(data) >= 84 and 84 + 50 * count != len(data):
        count = (len(data) - 84) // 50 if (len(data) - 84) % 50 == 0 else count
    if not data.lstrip().lower().startswith(b"solid") or 84 + 50 * count == len(data):
        if count == 0 or 84 + 50 * count > len(data):
            return None
        kind = np.dtype([("n", "<f4", 3), ("v", "<f4", (3, 3)), ("a", "<u2")])
        return np.frombuffer(data, kind, count, 84)["v"].astype(float)
    words = data.split()
    numbers = [words[at + 1 : at + 4] for at, word in enumerate(words) if word.lower() == b"vertex"]
    try:
        return np.array(numbers, float).reshape(-1, 3, 3)
    except ValueError:
        return None


def _of_package(data: bytes) -> np.ndarray | None:
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            root = ElementTree.fromstring(archive.read("3D/3dmodel.model"))
        corners = np.array(
            [[float(each.get(axis, "")) for axis in "xyz"] for each in root.iter() if each.tag.endswith("}vertex")]
        )
        facets = [
            [int(each.get(v, "")) for v in ("v1", "v2", "v3")] for each in root.iter() if each.tag.endswith("}triangle")
        ]
        moved = any("transform" in each.attrib for each in root.iter())
        return None if moved else corners[np.array(facets)]
    except Exception:
        return None


def volume_by_places(triangles: np.ndarray, *, by_turns: bool) -> tuple[float, float]:
    """The volume of all points that the facets wind around, and five times its standard error.

    If facets face both ways, count the points from which a line outwards crosses an odd number of them.
    """
    low, high = triangles.min((0, 1)), triangles.max((0, 1))
    room = float(np.prod(high - low))
    places = low + (high - low) * np.random.default_rng(7).random((PLACES, 3))
    inside = np.abs(_wound(triangles, places)) > 0.5 if by_turns else _crossed(triangles, places) % 2
    share = float(inside.mean())
    return room * share, 5 * room * max(0.01, (share * (1 - share)) ** 0.5) / PLACES**0.5


def _wound(triangles: np.ndarray, places: np.ndarray) -> np.ndarray:
    a, b, c = (triangles[None, :, at] - places[:, None] for at in range(3))
    la, lb, lc = (np.linalg.norm(each, axis=2) for each in (a, b, c))
    above = np.einsum("ijk,ijk->ij", a, np.cross(b, c))
    below = la * lb * lc + (a * b).sum(2) * lc + (b * c).sum(2) * la + (c * a).sum(2) * lb
    return np.arctan2(above, below).sum(1) / (2 * np.pi)


def _crossed(triangles: np.ndarray, places: np.ndarray) -> np.ndarray:
    way = np.array([0.5377, 0.8339, 0.1247])
    first, second = triangles[:, 1] - triangles[:, 0], triangles[:, 2] - triangles[:, 0]
    side = np.cross(way, second)
    size = (first * side).sum(1)
    with np.errstate(all="ignore"):
        start = places[:, None] - triangles[None, :, 0]
        u = (start * side).sum(2) / size
        turned = np.cross(start, first)
        v = turned @ way / size
        ahead = (turned * second).sum(2) / size
        return ((u >= 0) & (v >= 0) & (u + v <= 1) & (ahead > 0)).sum(1)


def judge(data: bytes, up: str = "+z") -> tuple[str, float]:
    """The result for one file, and how long it took; raises AssertionError if a rule is broken."""
    began = time.perf_counter()
    try:
        found = solid.measure(mesh_file.opened(data), up)
    except NotAMesh as error:
        return "refused" if str(error) else "refused without a word", time.perf_counter() - began
    thickness = thickness_of(found)
    took = time.perf_counter() - began
    if found.volume is None:
        assert thickness is None
        assert found.why, "no volume and no word why"
        return found.trust, took
    assert 0 < found.volume <= 1.000001 * np.prod(found.box), (found.volume, found.box)
    assert found.area > 0
    assert found.projected is not None
    assert 0 <= found.projected.least <= found.projected.value * 1.000001 <= found.projected.most * 1.000002
    for place in thickness.places if thickness else ():
        # no ball in the shape has more volume than it, apart from what the grid doesn't know
        ball = max(0.0, place.radius - 2 * place.radius_error)
        assert 4 / 3 * np.pi * ball**3 <= 1.001 * (found.volume + found.volume_error), (place, found.volume)
        assert place.radius / 3.001 <= place.modulus <= place.radius * 1.001
        assert np.isfinite([*place.centre, place.radius, place.radius_error, place.modulus]).all()
    triangles = understood(data)
    if triangles is not None and len(triangles) == found.facets:
        reach = np.ptp(triangles, axis=(0, 1))
        if reach.min() > 1e-5 * reach.max():
            there, off = volume_by_places(triangles, by_turns=not found.topology.turned)
            once = found.volume - (
                found.overlap if found.topology.turned else 0.0
            )  # an odd number of crossings leaves out what is covered twice
            assert abs(once - there) <= off + found.volume_error, (
                found.trust,
                found.volume,
                found.volume_error,
                there,
                off,
            )
            return f"{found.trust}, compared with points", took
    return found.trust, took


def main(words: list[str]) -> int:
    """Print how many gave each result, and the longest wait."""
    many, seed = int(words[0]) if words else 20_000, int(words[1]) if len(words) > 1 else 1
    came: Counter[str] = Counter()
    longest, broken = 0.0, 0
    for number in range(many):
        chance = random.Random(seed * 1_000_003 + number)
        done, data = damaged(chance)
        try:
            what, took = judge(data, chance.choice(("+z", "-z", "+x", "-y")))
        except Exception as error:
            broken += 1
            print(f"number {number}, {done}: {type(error).__name__} {error}")
            continue
        came[what] += 1
        longest = max(longest, took)
    print(f"{many} files, seed {seed}: {dict(came.most_common())}; longest {longest:.2f} s; {broken} broke a rule")
    return 1 if broken or longest > LONGEST_S else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
