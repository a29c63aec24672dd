"""The answer of a job as an object: for Python, and for a notebook, which shows it as a table."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any, Generic, NamedTuple, TypeVar, cast

from sandmix.doors import printing, terminal
from sandmix.python import notebook

ResultT = TypeVar("ResultT", bound=Mapping[str, object], covariant=True)
"""The figures of one job by word: in the types of `sandmix.ask`, a dictionary with a key for each of its answers."""


class State(NamedTuple):
    """An answer in one word, such as *temper*, and its tone: go, care, stop or plain."""

    word: str
    tone: str


class ToDo(NamedTuple):
    """One thing to do, and how much of it as a person reads it, or an empty text."""

    text: str
    amount: str


class Figure(NamedTuple):
    """One figure as a person reads it: its word, its label, the text, its likely range, and what it is a share of; the last two may be empty."""

    word: str
    label: str
    text: str
    range: str
    basis: str


class Answer(Generic[ResultT]):
    """The answer of one job.

    ``str(answer)`` is the text that the command line prints, and a notebook shows the answer as a table. Each property returns a new value:
    changing it does not change the answer.
    """

    __slots__ = ("_whole",)

    def __init__(self, whole: Mapping[str, Any]) -> None:
        self._whole = json.dumps(whole, ensure_ascii=False, allow_nan=False)

    def to_dict(self) -> dict[str, Any]:
        """Return the whole answer as plain data, as the JSON door gives it."""
        whole: dict[str, Any] = json.loads(self._whole)
        return whole

    @property
    def job(self) -> str:
        """The job that answered."""
        return str(self.to_dict()["job"])

    @property
    def headline(self) -> str:
        """The answer in a sentence."""
        return str(self.to_dict()["headline"])

    @property
    def state(self) -> State:
        """The answer in one word, and its tone."""
        state = self.to_dict()["state"]
        return State(state["word"], state["tone"])

    @property
    def result(self) -> ResultT:
        """The figures by word, each in the unit that its word names. A figure that could not be worked out is not there."""
        return cast("ResultT", self.to_dict()["result"])

    @property
    def ranges(self) -> dict[str, tuple[float, float]]:
        """The likely range of each uncertain figure, by word: it holds the true value 19 times in 20."""
        return {word: (low, high) for word, (low, high) in self.to_dict()["doubt"].items()}

    @property
    def figures(self) -> list[Figure]:
        """The figures as a person reads them, with no more digits than the range of each allows."""
        return [Figure(**row) for row in self.to_dict()["shown"]]

    @property
    def to_do(self) -> list[ToDo]:
        """What to do, in its order."""
        return [ToDo(one["text"], one["amount"]) for one in self.to_dict()["todo"]]

    @property
    def remarks(self) -> list[str]:
        """What else there is to know, such as an input that is unusual."""
        return list(self.to_dict()["remarks"])

    @property
    def cautions(self) -> list[str]:
        """What can hurt a person in what follows. Read them before you act on the answer."""
        return list(self.to_dict()["cautions"])

    @property
    def sources(self) -> dict[str, str]:
        """Where the figures are from, by the key of each source."""
        return dict(self.to_dict()["sources"])

    def __str__(self) -> str:
        return printing.table(self.to_dict(), terminal.width())

    def __repr__(self) -> str:
        return f"<Answer to {self.job}: {self.headline}>"

    __hash__ = None  # type: ignore[assignment]  # it is compared by its content, as a dictionary is

    def __eq__(self, other: object) -> bool:
        return self._whole == other._whole if isinstance(other, Answer) else NotImplemented

    def _repr_html_(self) -> str:
        return notebook.html(self.to_dict())
