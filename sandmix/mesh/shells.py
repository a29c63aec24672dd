"""Which shell lies in which, by the crossings of rays: which shells count, which are hollows, and which face the wrong way.

A shell that is not inside another and faces inwards is turned. One inside another is a hollow if it faces the other way. Whatever else has two
possible meanings stays undecided, with the reason in words.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from sandmix.mesh.rays import Rays

TOUCHING = 2
MOST_NESTED = 64


@dataclass(frozen=True, slots=True, kw_only=True)
class Shells:
    """How each shell counts: 1 as it is, -1 turned; how many are hollows and how many turned; or ``why`` this is undecided."""

    sign: Mapping[int, int]
    seen: frozenset[int] = frozenset()
    hollows: int = 0
    flipped: int = 0
    why: str = ""


def classified(rays: Rays, volumes: Mapping[int, float]) -> Shells:
    """Return how the shells with these signed *volumes* count."""
    faces = {shell: 1 if volume >= 0 else -1 for shell, volume in volumes.items()}
    if len(volumes) == 1:
        flipped = sum(1 for sign in faces.values() if sign < 0)
        return Shells(sign=faces, seen=frozenset(volumes), flipped=flipped)
    always, sometimes = _surroundings(rays)
    if always is None:
        return Shells(sign={}, why="too many shells lie inside each other")
    seen = frozenset(always)
    if _intersect(always, sometimes):
        nested = any(always[shell] for shell in seen)
        if len({faces[shell] for shell in seen}) > 1:
            return Shells(sign={}, why="shells that face inwards and shells that face outwards cut into each other")
        if nested and not _all_coincide(always):
            return Shells(sign={}, why=_UNDECIDED)
        return Shells(sign=faces, seen=seen, flipped=sum(1 for sign in faces.values() if sign < 0))
    return _nested(faces, always)


_UNDECIDED = "a shell lies inside another and faces the same way, so it may be a hollow, or be there twice"


def _surroundings(rays: Rays) -> tuple[dict[int, set[int]] | None, dict[int, set[int]]]:
    """For each shell that a ray crosses, the shells that surround it everywhere, and those that do somewhere; None where too many are nested."""
    always: dict[int, set[int]] = {}
    sometimes: dict[int, set[int]] = {}
    for crossings in rays.crossings:
        inside: dict[int, int] = {}
        before = 0
        for depth, enters, shell in crossings:
            if depth - before > TOUCHING and inside:
                if len(inside) > MOST_NESTED:
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


def _intersect(always: Mapping[int, set[int]], sometimes: Mapping[int, set[int]]) -> bool:
    """Whether the surfaces of two shells cut each other, or are the same."""
    for one, others in sometimes.items():
        for other in others:
            inside, around = other in always[one], one in always[other]
            if inside == around:
                return True
    return False


def _all_coincide(always: Mapping[int, set[int]]) -> bool:
    """Whether each shell that is inside another also surrounds it: the same body twice."""
    return all(one in always[other] for one, others in always.items() for other in others)


def _nested(faces: Mapping[int, int], always: Mapping[int, set[int]]) -> Shells:
    """How shells count that lie inside each other or apart, and do not intersect."""
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
            return Shells(sign={}, why=_UNDECIDED)
        sign |= dict.fromkeys(family, -1)
        flipped += len(family)
    hollows = sum(len(around) % 2 for around in always.values())
    return Shells(sign=sign, seen=frozenset(always), hollows=hollows, flipped=flipped)


def turned(rays: Rays, sign: Mapping[int, int]) -> Rays:
    """Return the rays with in and out exchanged for turned shells."""
    if all(value > 0 for value in sign.values()):
        return rays
    crossings_turned = [
        sorted((depth, enters if sign[shell] > 0 else 1 - enters, shell) for depth, enters, shell in crossings)
        for crossings in rays.crossings
    ]
    return replace(rays, crossings=crossings_turned)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lengths:
    """For each ray the length inside the shape at least once, inside it again (times the number too many), and what counts as negative."""

    inside: list[float]
    again: list[float]
    negative: list[float]


def lengths(rays: Rays) -> Lengths:
    """Return how long each ray is inside the shape, in steps."""
    inside, again, negative = [], [], []
    for crossings in rays.crossings:
        depth_in, before, once, more, less = 0, 0, 0, 0, 0
        for depth, enters, _ in crossings:
            if depth_in > 0:
                once += depth - before
                more += (depth_in - 1) * (depth - before)
            elif depth_in < 0:
                less -= depth_in * (depth - before)
            depth_in += 1 if enters else -1
            before = depth
        inside.append(float(once))
        again.append(float(more))
        negative.append(float(less))
    return Lengths(inside=inside, again=again, negative=negative)
