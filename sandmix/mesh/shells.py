"""Which shell lies in which, by what rays meet, and so which count, which are hollows, and which face the wrong way.

A shell that stands alone and faces inwards is turned. One inside another is a hollow where it faces the other way. Everything else that could be
read in two ways is left undecided, in words.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from sandmix.mesh.rays import Rays

TOUCHING = 2
MOST_OPEN_AT_ONCE = 64


@dataclass(frozen=True, slots=True, kw_only=True)
class Shells:
    """By shell, 1 where it counts as it is and -1 where it is turned; how many are hollows and how many turned; or ``why`` it can't be told."""

    sign: Mapping[int, int]
    seen: frozenset[int] = frozenset()
    hollows: int = 0
    flipped: int = 0
    why: str = ""


def told_apart(rays: Rays, volumes: Mapping[int, float]) -> Shells:
    """Return how the shells, whose signed *volumes* are known, count."""
    faces = {shell: 1 if volume >= 0 else -1 for shell, volume in volumes.items()}
    if len(volumes) == 1:
        flipped = sum(1 for sign in faces.values() if sign < 0)
        return Shells(sign=faces, seen=frozenset(volumes), flipped=flipped)
    always, sometimes = _company(rays)
    if always is None:
        return Shells(sign={}, why="more shells lie in each other than can be told apart")
    seen = frozenset(always)
    if _cut(always, sometimes):
        nested = any(always[shell] for shell in seen)
        if len({faces[shell] for shell in seen}) > 1:
            return Shells(sign={}, why="shells that face in and shells that face out cut into each other")
        if nested and not _all_twins(always):
            return Shells(sign={}, why=_SAME_WAY)
        return Shells(sign=faces, seen=seen, flipped=sum(1 for sign in faces.values() if sign < 0))
    return _nested(faces, always)


_SAME_WAY = "a shell lies inside another and faces the same way, so it may be a hollow or be counted twice"


def _company(rays: Rays) -> tuple[dict[int, set[int]] | None, dict[int, set[int]]]:
    """By shell that was met, the others around it wherever it was met, and those around it somewhere; None where too many are open at once."""
    always: dict[int, set[int]] = {}
    sometimes: dict[int, set[int]] = {}
    for crossings in rays.met:
        inside: dict[int, int] = {}
        before = 0
        for depth, enters, shell in crossings:
            if depth - before > TOUCHING and inside:
                if len(inside) > MOST_OPEN_AT_ONCE:
                    return None, {}
                around = set(inside)
                for one in around:
                    others = around - {one}
                    always[one] = always[one] & others if one in always else others
                    sometimes.setdefault(one, set()).update(others)
            now = inside.get(shell, 0) + (1 if enters else -1)
            if now:
                inside[shell] = now
            else:
                inside.pop(shell, None)
            before = depth
    return always, sometimes


def _cut(always: Mapping[int, set[int]], sometimes: Mapping[int, set[int]]) -> bool:
    """Whether the surfaces of two shells cut each other, or are the same."""
    for one, others in sometimes.items():
        for other in others:
            inside, around = other in always[one], one in always[other]
            if inside == around:
                return True
    return False


def _all_twins(always: Mapping[int, set[int]]) -> bool:
    """Whether each shell that is always inside another always has that other inside it: the same body twice."""
    return all(one in always[other] for one, others in always.items() for other in others)


def _nested(faces: Mapping[int, int], always: Mapping[int, set[int]]) -> Shells:
    """How shells count that lie in each other or apart, and nowhere cut."""
    families: dict[int, list[int]] = {}
    for shell, around in always.items():
        outermost = next((other for other in around if not always[other]), shell)
        families.setdefault(outermost, []).append(shell)
    sign = dict(faces) | dict.fromkeys(always, 1)
    flipped = 0
    for family in families.values():
        wrong = [shell for shell in family if faces[shell] != (-1 if len(always[shell]) % 2 else 1)]
        if not wrong:
            continue
        if len(wrong) < len(family):
            return Shells(sign={}, why=_SAME_WAY)
        sign |= dict.fromkeys(family, -1)
        flipped += len(family)
    hollows = sum(len(around) % 2 for around in always.values())
    return Shells(sign=sign, seen=frozenset(always), hollows=hollows, flipped=flipped)


def turned(rays: Rays, sign: Mapping[int, int]) -> Rays:
    """Return the rays with the crossings of turned shells the other way round."""
    if all(value > 0 for value in sign.values()):
        return rays
    met = [
        sorted((depth, enters if sign[shell] > 0 else 1 - enters, shell) for depth, enters, shell in crossings)
        for crossings in rays.met
    ]
    return replace(rays, met=met)


def counted_wrong(rays: Rays) -> tuple[list[float], list[float]]:
    """Return, by ray, the length that is inside more than once (each time beyond the first), and the length that is inside less than not at all."""
    twice, outside = [], []
    for crossings in rays.met:
        if not crossings or (len(crossings) == 2 and crossings[0][1]):
            twice.append(0.0)
            outside.append(0.0)
            continue
        depth_in, before, more, less = 0, 0, 0, 0
        for depth, enters, _ in crossings:
            if depth_in > 1:
                more += (depth_in - 1) * (depth - before)
            elif depth_in < 0:
                less -= depth_in * (depth - before)
            depth_in += 1 if enters else -1
            before = depth
        twice.append(float(more))
        outside.append(float(less))
    return twice, outside
