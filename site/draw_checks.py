"""The page of checks, the count of checks of each source, and the link from a formula to its checks."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence

from check_list import CLAIMS, HOW_SURE, Check, checks, of_source, of_topic, sources
from check_topics import GROUPS, TOPICS
from draw_tag import Markup, join, tag
from sandmix.language.wording import raised

FORMULA = re.compile(r'<p class="formula" data-checks="([\w ]+)">(.*?)</p>', re.DOTALL)
NONE = "none"
"""What a formula names whose figures nothing from outside checks."""
POWER = re.compile(r"10\^(-?\d+)")
RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
SURE_ORDER = tuple(HOW_SURE)


def page() -> Markup:
    """How many checks there are, of each source too, what disagrees, and all checks topic by topic."""
    groups = (_group(heading, topics) for heading, topics in GROUPS.items())
    return join(_counts(), _by_source(), _unchecked(), _disagreeing(), *groups)


def with_links(html: str) -> str:
    """A page whose formulas say how many figures check them, with a link to each topic."""
    return FORMULA.sub(lambda found: _formula(found[2], found[1].split()), html)


def of_source_links(key: str) -> Markup:
    """How many checks compare with a source, and on which topics, for the page of sources."""
    listed = of_source(key)
    if not listed:
        return tag("small", "Nothing checks this.", class_="checked")
    return tag("small", *_of_topics(listed, "../checks/"), class_="checked")


def checked(topic: str) -> Markup:
    """How many checks a topic has, for the text of a method page."""
    return tag("p", tag("small", TOPICS[topic], ": ", _topic_link(topic), class_="checked"))


def _formula(inside: str, topics: Sequence[str]) -> str:
    listed = [topic for topic in topics if topic != NONE and of_topic(topic)]
    note = _with_commas(map(_topic_link, listed)) if listed else ("Not checked by a figure from outside.",)
    return f'<p class="formula">{inside}{tag("small", *note, class_="checked")}</p>'


def _topic_link(topic: str) -> Markup:
    return tag("a", _figures(len(of_topic(topic)), "check"), href=f"../../checks/#{topic}")


def _with_commas(parts: Iterable[Markup]) -> Iterable[Markup | str]:
    for at, part in enumerate(parts):
        yield from (", ", part) if at else (part,)


def _figures(count: int, name: str) -> str:
    return f"{count} {name}{'' if count == 1 else 's'}"


def _counts() -> Markup:
    listed = checks()
    sure = Counter(check.how_sure for check in listed)
    differing = sum(bool(check.differs) for check in listed)
    compared = {check.source for check in listed}
    rows = [
        ("Checks", len(listed)),
        ("Agree", len(listed) - differing),
        ("Disagree", differing),
        *((raised(HOW_SURE[key]), sure[key]) for key in SURE_ORDER if sure[key]),
        ("Sources with a check", len(compared)),
        ("Sources without one", len(sources().keys() - compared)),
    ]
    return tag("dl", *(tag("div", tag("dt", name), tag("dd", count)) for name, count in rows), class_="facts")


def _disagreeing() -> Markup:
    listed = [check for check in checks() if check.differs]
    body = tag("ul", *map(_check, listed), class_="compared") if listed else tag("p", "Nothing disagrees.")
    return join(tag("h2", "What disagrees", id="disagrees"), body)


def _group(heading: str, topics: Iterable[str]) -> Markup:
    return join(tag("h2", heading), *map(_topic, topics))


def _topic(topic: str) -> Markup:
    """A topic, folded: an address that names it opens it."""
    listed = of_topic(topic)
    summary = tag("summary", TOPICS[topic], ": ", _figures(len(listed), "check"))
    return tag("details", summary, tag("ul", *map(_check, listed), class_="compared"), class_="folded topic", id=topic)


def _check(check: Check) -> Markup:
    source = tag("a", check.source, href=f"../sources/#{check.source}")
    sure = join(source, ", ", HOW_SURE[check.how_sure], "; ", tag("code", check.test))
    reason = tag("p", "Why it differs: ", check.differs) if check.differs else None
    return tag("li", tag("b", raised(check.what)), tag("p", *_compared(check)), reason, tag("small", sure))


def _compared(check: Check) -> Iterable[object]:
    tried = " " + _figures(check.cases, "comparison") + "." if check.cases > 1 else ""
    long = " Tried in long runs only." if check.run == "long" else ""
    allowed = f"Allowed: {_sign(check.within)} ({CLAIMS[check.claimed]})."
    if check.figure:
        yield from (tag("b", _sign(check.figure)), f" {check.unit}".rstrip(), "; sandmix gives ")
        yield from (tag("b", _sign(check.gives)), ". ", allowed)
    elif check.gives:
        yield from (f"Largest difference: {check.gives}. ", allowed)
    else:
        yield "So in each case."
    yield from (tried, long)


def _sign(text: str) -> str:
    """A figure with a true minus sign and raised powers."""
    text = POWER.sub(lambda found: "10" + found[1].translate(RAISED), text)
    return re.sub(r"(?<![\d.])-(?=\d)", "−", text)


def _by_source() -> Markup:
    compared = [key for key in sorted(sources()) if of_source(key)]
    listed = tag("dl", *map(_source, compared), class_="bibliography")
    return tag(
        "details", tag("summary", f"By source: {len(compared)} sources with a check"), listed, class_="folded topic"
    )


def _source(key: str) -> Markup:
    return join(tag("dt", tag("a", key, href=f"../sources/#{key}")), tag("dd", *_of_topics(of_source(key), "")))


def _of_topics(listed: Sequence[Check], page: str) -> Iterable[object]:
    topics = dict.fromkeys(check.topic for check in listed)
    links = (tag("a", TOPICS[topic], href=f"{page}#{topic}") for topic in topics)
    return (_figures(len(listed), "check"), ": ", *_with_commas(links))


def _unchecked() -> Markup:
    without = [key for key in sorted(sources()) if not of_source(key)]
    links = (tag("a", key, href=f"../sources/#{key}") for key in without)
    summary = tag("summary", f"Nothing checks {len(without)} sources")
    return tag("details", summary, tag("p", *_with_commas(links)), class_="folded topic")
