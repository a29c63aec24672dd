"""Compare with a figure from outside as `assert` would, and record it for the list of checks.

    PERMEABILITY = Checks("permeability", source="permeability_lecture", sure="read")
    PERMEABILITY.figure(found, "87.0", "9.6 cm and 36 s", within=0.1)

The figure is text, as the source prints it. Without a tolerance, half of its last digit is allowed. A figure that sandmix does not
reproduce has the reason in `differs`: then it must still differ, and stays listed. Figures of one topic that several tests compare
under the same words are one check.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import pytest
from effort import is_long

from check_list import CLAIMS, HOW_SURE, Check, sources
from check_topics import TOPICS

RECORDED: dict[tuple[str, ...], Recorded] = {}
NOW: list[pytest.Item] = []
"""The test that runs."""
DIGITS = 7
STEPS = (1, 10, 20, 50, 100)
"""The largest difference is written as a step of what is allowed, so that another machine writes the same."""


@dataclass(slots=True)
class Recorded:
    """A check, and what only matters until all tests have run."""

    check: Check
    off: float
    """The difference as a share of what is allowed."""


@dataclass(frozen=True, slots=True)
class Checks:
    """What the checks of a topic have in common."""

    topic: str
    source: str = field(kw_only=True)
    sure: str = field(kw_only=True)
    claimed: str = field(default="", kw_only=True)
    """Who claims a tolerance or a range, where it is not the project that sets a tolerance, and the source that states a range."""

    def __post_init__(self) -> None:
        assert self.topic in TOPICS, f"add {self.topic} to site/check_topics.py"
        assert self.source in sources(), (
            f"add {self.source} to sandmix/language/sources.py, or to sources.csv if only tests use it"
        )
        assert self.sure in HOW_SURE, f"sure is one of {', '.join(HOW_SURE)}, not {self.sure}"
        assert self.claimed in ("", *CLAIMS), f"claimed is one of {', '.join(CLAIMS)}, or empty, not {self.claimed}"

    def but(self, **changes: str) -> Checks:
        """The same with another topic, source, claim, or how sure."""
        return replace(self, **changes)

    def figure(self, got: Any, printed: str, what: str, *, unit: str = "", within: float | None = None,
               share: float | None = None, differs: str = "") -> None:  # fmt: skip
        """Fail unless *got* is the printed figure, or figures with commas, within half a digit, *within*, or a *share* of it."""
        texts, gots = printed.split(", "), [*_flat(got)]
        assert len(texts) == len(gots), f"{what}: {len(gots)} figures, but {len(texts)} are printed"
        wanted = [_number(text) for text in texts]
        if within is None and share is None:
            rooms, claimed = [_half_digit(text) for text in texts], "digit"
        else:
            rooms, claimed = [share * abs(one) if share else within or 0.0 for one in wanted], self.claimed or "project"
        offs = [_off(one, other, room) for one, other, room in zip(gots, wanted, rooms, strict=True)]
        gives = ", ".join(_rounded(one, room, text) for one, room, text in zip(gots, rooms, texts, strict=True))
        said = f"{what}: sandmix gives {gots}, {self.source} has {printed} ± {rooms}"
        if differs:
            assert max(offs) > 1, f"{said}. It is listed as different, but agrees now."
        else:
            assert max(offs) <= 1, said
        if share:
            allowed = _share(share)
        elif claimed == "digit":
            allowed = ", ".join(dict.fromkeys(_plain(room) for room in rooms))
        else:
            allowed = _plain(within or 0.0) if within else "exact"
        self._record(what, printed, unit, gives, allowed, claimed, max(offs), differs=differs)

    def between(self, got: float, low: str, high: str, what: str, *, unit: str = "", differs: str = "",
                varies: bool = False) -> None:  # fmt: skip
        """Fail unless *got* lies in the range; an empty text leaves one end open. What *varies* with the effort is recorded in a long run."""
        least, most = (_number(text) if text else end for text, end in ((low, -math.inf), (high, math.inf)))
        said = f"{what}: sandmix gives {got}, {self.source} has {low} to {high}"
        if differs:
            assert not least <= got <= most, f"{said}. It is listed as different, but agrees now."
        else:
            assert least <= got <= most, said
        printed = f"{low} to {high}" if low and high else f"at least {low}" if low else f"at most {high}"
        room = 2 * max(_half_digit(text) for text in (low, high) if text)
        at = (got - least) / (most - least) if low and high else 0.5
        gives, off = _rounded(got, room, low or high), abs(2 * at - 1)
        self._record(
            what,
            printed,
            unit,
            gives,
            "inside the range",
            self.claimed or "source",
            off,
            differs=differs,
            varies=varies,
        )

    def covered(self, low: float, high: float, printed: str, what: str, *, unit: str = "", within: float = 0.0) -> None:
        """Fail unless the printed figure lies in the range that sandmix gives, with *within* of it to spare at each end."""
        wanted, least, most = _number(printed), low - within, high + within
        assert least <= wanted <= most, f"{what}: sandmix gives {low} to {high}, {self.source} has {printed}"
        gives = " to ".join(_rounded(end, _half_digit(printed), printed) for end in (low, high))
        allowed = f"covered, {_plain(within)} to spare" if within else "covered"
        self._record(
            what,
            printed,
            unit,
            gives,
            allowed,
            self.claimed or "source",
            abs(2 * (wanted - least) / (most - least) - 1),
        )

    def agrees(self, got: Any, other: Any, what: str, *, rel: float = 0.0, within: float = 0.0, allowed: str = "",
               case: object = None, varies: bool = False) -> None:  # fmt: skip
        """Fail unless *got* is the *other* figure, worked out by other means, to *rel* of it or *within*, whichever is more."""
        mine, others = [*_flat(got)], [*_flat(other)]
        assert len(mine) == len(others), f"{what}: {len(mine)} figures against {len(others)}"
        offs = [_off(one, two, max(rel * abs(two), within)) for one, two in zip(mine, others, strict=True)]
        worst = max(offs, default=0.0)
        assert worst <= 1, f"{what}: sandmix gives {mine}, {self.source} has {others}, {case}"
        if not allowed:
            allowed = " or ".join(part for part in (rel and _share(rel), within and _plain(within)) if part) or "exact"
        self._record(
            what, "", "", "", allowed, self.claimed or "project", worst, cases=max(1, len(offs)), varies=varies
        )

    def holds(self, truth: object, what: str, *, case: object = None, varies: bool = False) -> None:
        """Fail unless a statement from outside is true of this case."""
        assert truth, f"{what}: not so ({self.source}), {case}"
        self._record(what, "", "", "", "so in each case", self.claimed or "project", 0.0, varies=varies)

    def _record(self, what: str, printed: str, unit: str, gives: str, allowed: str, claimed: str, off: float, *,
                cases: int = 1, differs: str = "", varies: bool = False) -> None:  # fmt: skip
        test = NOW[-1]
        full = varies or test.get_closest_marker("full") is not None
        if full and not is_long():
            return
        check = Check(
            topic=self.topic, what=what, figure=printed, unit=unit, gives=gives, within=allowed, claimed=claimed,
            how_sure=self.sure, source=self.source, cases=cases, differs=differs,
            run="long" if full else "usual", test=test.path.stem,
        )  # fmt: skip
        key = (check.test, check.topic, what, printed, check.source)
        before = RECORDED.get(key)
        if before is None:
            RECORDED[key] = Recorded(check=check, off=off)
            return
        assert (before.check.within, before.check.how_sure) == (allowed, self.sure), f"two checks are called {what!r}"
        further = off > before.off * (1 + 1e-6) + 1e-6
        RECORDED[key] = Recorded(
            check=replace(check if further else before.check, cases=before.check.cases + cases),
            off=max(off, before.off),
        )


def recorded() -> list[Check]:
    """All that was compared; where figures were computed by other means, how far off the worst of them is."""
    return [
        each.check
        if each.check.figure
        else replace(each.check, gives="" if each.check.within.startswith("so ") else _step(each.off))
        for each in RECORDED.values()
    ]


def after(listed: Iterable[Check], now: Iterable[Check], ran: set[str], *, long: bool) -> list[Check]:
    """The list after a run of these files: what they recorded, and the rows that this run could not record."""
    kept = [check for check in listed if check.test not in ran or (check.run == "long" and not long)]
    return [*kept, *now]


def whole_files(config: pytest.Config, items: Iterable[pytest.Item]) -> set[str]:
    """The files of which every test was chosen; with a part of a file's tests nothing can be said of its checks."""
    option = config.option
    if option.keyword or option.markexpr or getattr(option, "lf", False) or any("::" in arg for arg in config.args):
        return set()
    here = Path(__file__).parent
    return {item.path.stem for item in items if item.path.parent == here}


def _flat(value: Any) -> Iterator[float]:
    """The numbers in a value, one after the other."""
    if isinstance(value, Mapping):
        value = value.values()
    if hasattr(value, "tolist"):
        value = value.tolist()
    if isinstance(value, Iterable):
        for one in value:
            yield from _flat(one)
    else:
        yield float(value)


def _number(text: str) -> float:
    return float(text.replace(" ", "").replace("−", "-"))


def _half_digit(text: str) -> float:
    """Half of the last digit that is printed."""
    mantissa, _, power = text.replace(" ", "").partition("e")
    return 0.5 * 10.0 ** (int(power or 0) - len(mantissa.partition(".")[2]))


def _off(got: float, wanted: float, room: float) -> float:
    """How far off, as a share of the room; a last bit of a decimal that binary cannot hold does not count."""
    far = abs(got - wanted)
    return 0.0 if got == wanted else far / (room + 1e-12 * abs(wanted)) if room else math.inf


def _rounded(value: float, room: float, printed: str) -> str:
    """The value to the digits that the tolerance justifies, or as many as are printed."""
    places = printed_places = len(printed.replace(" ", "").partition("e")[0].partition(".")[2])
    if room:
        places = max(0, math.ceil(-math.log10(room) - 1e-9))
        places = min(places, max(0, DIGITS - 1 - math.floor(math.log10(abs(value) or 1))))
        places = max(places, printed_places)
    value = round(value * (1 + 1e-10), places) + 0.0
    return f"{value:.{places}f}" if 1e-3 <= abs(value) < 1e12 or value == 0 else f"{value:.3e}"


def _plain(value: float) -> str:
    return f"{value:.3g}" if value >= 1e-4 else _tenths(value)


def _tenths(value: float) -> str:
    power = math.floor(math.log10(value) + 1e-9)
    lead = round(value / 10.0**power, 1)
    return f"{'' if lead == 1 else f'{lead:g} · '}10^{power}"


def _share(value: float) -> str:
    return f"{100 * value:.3g} %" if value >= 1e-4 else f"{_tenths(value)} of it"


def _step(off: float) -> str:
    step = next((step for step in STEPS if 100 * off <= step), STEPS[-1])
    return f"at most {step} % of what is allowed"
