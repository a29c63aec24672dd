"""The pages of the handbook in reading order: the steps of the sand's life, then what people get wrong, then two walks."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

FOLDER = "handbook/"


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One page: the name of its file, its name in the menu, and the question it answers.

    *about* are the jobs whose own pages link here. At its end the page links to these and to *also*.
    """

    name: str
    short: str
    question: str
    about: tuple[str, ...] = ()
    also: tuple[str, ...] = ()

    @property
    def jobs(self) -> tuple[str, ...]:
        """The jobs that work out what the page is about."""
        return self.about + self.also


STEPS = (
    Page(name="choosing", short="Choosing", question="Which sand and which clay?", about=("choose", "shopping", "fineness", "match")),
    Page(name="mixing", short="Mixing and mulling", question="How do sand, clay and water become one?", about=("mix", "blend")),
    Page(name="tempering", short="Tempering", question="How wet should the sand be?", about=("temper", "bench", "tin", "feel", "readings")),
    Page(name="ramming", short="Ramming and turning over", question="How does loose sand hold a shape?", about=("flask", "fit", "pattern")),
    Page(name="venting", short="Venting", question="Where do steam and gas go?", about=("carbon",), also=("pour",)),
    Page(name="gating", short="Gating and feeding", question="How does the metal get in, and what feeds it?", about=("gate", "feed")),
    Page(name="pouring", short="Pouring", question="What is ready before the metal is?", about=("pour", "plan")),
    Page(name="opening", short="Opening", question="When is it solid, and what did the heat do?", about=("burnout", "diagnose")),
    Page(name="riddling", short="Riddling", question="What goes back, and what stays out?", about=("facing",), also=("heap",)),
    Page(name="restoring", short="Restoring", question="What does used sand need?", about=("rebond", "estimate", "forecast", "season")),
    Page(name="storing", short="Storing", question="How does the sand keep?", about=("dry", "learned"), also=("heap",)),
)  # fmt: skip
"""The steps of the sand's life."""
OTHERS = (
    Page(name="two-bags", short="From two bags to a casting", question="How does a first casting go?", also=("plan", "mix", "heap")),
    Page(name="season", short="A season with one heap", question="What becomes of the sand?", about=("heap",), also=("rebond", "forecast", "season")),
    Page(name="misunderstandings", short="Often misunderstood", question="What do people get wrong, and which number shows it?", also=("diagnose",)),
)  # fmt: skip
"""Two walks, and what people get wrong."""
PAGES = (*STEPS, *OTHERS)
BY_NAME: Mapping[str, Page] = {page.name: page for page in PAGES}
ABOUT: Mapping[str, str] = {job: page.name for page in PAGES for job in page.about}
"""The page that each job's page links to."""


def after(name: str) -> Page | None:
    """The page that follows; none after the last."""
    at = PAGES.index(BY_NAME[name])
    return PAGES[at + 1] if at + 1 < len(PAGES) else None


def about(job: str) -> str:
    """The page that a job's page links to, as a file of the site's Markdown."""
    return f"{FOLDER}{ABOUT[job]}.md"


def page_at(path: str) -> Page | None:
    """The page that a file of Markdown is; none for the landing page and for all pages outside the handbook."""
    return BY_NAME.get(path.removeprefix(FOLDER).removesuffix(".md")) if path.startswith(FOLDER) else None
