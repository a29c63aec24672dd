"""The types of `sandmix.ask`: a function for each job with the words of its form, and the figures of its answer.

They are drawn from the forms and kept in `sandmix/ask.pyi`, which type checkers and editors read. A test says when they are out of date.

    python3 site/ask_types.py
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from sandmix.asking.answer import answer  # noqa: E402
from sandmix.asking.form import Ask, asks  # noqa: E402  found only once the path is set
from sandmix.asking.job import AnyJob  # noqa: E402
from sandmix.doors.spelling import keywords_of  # noqa: E402
from sandmix.jobs import JOBS  # noqa: E402
from sandmix.language.series import Series  # noqa: E402
from sandmix.language.tables import Picks, Rows, Sizes, Table  # noqa: E402
from sandmix.language.texts import Data, Text, Timestamp  # noqa: E402
from sandmix.language.uploads import Flag, Upload  # noqa: E402
from sandmix.language.words import Choice, Names, Quantity, Sentence, Word  # noqa: E402
from sandmix.vocabulary import WORDS  # noqa: E402

YES_NO = {"yes", "no"}
FILE = ROOT / "sandmix/ask.pyi"
HEAD = '''"""The types of `sandmix.ask`. Written by site/ask_types.py from the forms of the jobs; do not edit it by hand."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from os import PathLike
from typing import Any, Literal, TypeAlias, TypedDict, overload

from sandmix.python.answered import Answer as Answer

Amount: TypeAlias = float | str | Mapping[str, float | str]
"""A number in the unit of the word, a text such as "2.5 kg" or "6.4 ± 0.3 %", or a mapping such as {"value": 6.4, "unit": "%"}."""
Document: TypeAlias = str | PathLike[str] | Mapping[str, object] | Sequence[Mapping[str, object]]
"""A file by its name, or what it holds."""
File: TypeAlias = str | PathLike[str] | bytes
"""A file by its name, or its bytes."""
'''
_INPUTS: Mapping[type[Word], str] = {
    Quantity: "Amount",
    Sizes: "str | Sequence[Amount]",
    Rows: "str | Sequence[Mapping[str, object]]",
    Table: "str | Mapping[Any, Amount] | Sequence[tuple[str | int, Amount]]",
    Series: "str | Sequence[Amount]",
    Picks: "str | Sequence[str]",
    Data: "Document",
    Upload: "File",
    Timestamp: "str | datetime",
    Text: "str",
}
_FIGURES: Mapping[type[Word], str] = {
    Quantity: "float",
    Sizes: "list[float]",
    Rows: "list[dict[str, object]]",
    Table: "dict[str, float]",
    Picks: "list[str]",
    Names: "list[str]",
    Flag: "bool",
    Sentence: "str",
}


def main() -> None:
    """Write the file."""
    FILE.write_text(text(), encoding="utf-8")


def text() -> str:
    """Return the text of the file."""
    used = {word for job in JOBS.values() for word in (*asks(job.form), *job.answers)}
    choices = [
        f"{_alias(word)}: TypeAlias = Literal[{', '.join(_quoted(choice) for choice in word.choices)}]"
        for word in WORDS.values()
        if isinstance(word, Choice) and word.name in used
    ]
    return "\n".join([HEAD, *choices, "", *(line for job in JOBS.values() for line in _job(job))])


def _job(job: AnyJob) -> Iterable[str]:
    """The lines of one job: its figures, its function, and two of them where words that it requires have a short spelling too."""
    kind = _camel(job.name)
    yield f"class {kind}Result(TypedDict, total=False):"
    yield f'    """The figures of *{job.name}* by word; one that could not be worked out is not there."""'
    yield ""
    series = _series(job)
    yield from (
        f"    {word}: {'list[float]' if word in series else _type(WORDS[word], _FIGURES)}" for word in job.answers
    )
    yield ""
    form = asks(job.form)
    spellings: dict[str, list[str]] = {}
    for keyword, word in keywords_of(form).items():
        spellings.setdefault(word, []).append(keyword)
    shortest = {word: spelled[0] for word, spelled in spellings.items()}
    ways = [shortest, {word: word for word in form}]
    if all(shortest[word] == word for word, part in form.items() if part.required):
        ways = ways[:1]
    for way in ways:
        if len(ways) > 1:
            yield "@overload"
        yield f"def {job.name}("
        yield "    *,"
        yield from _parameters(form, spellings, way)
        yield f") -> Answer[{kind}Result]:"
        yield f'    """{job.title} Raises InputError with everything that is wrong in what was given."""'
        yield ""


def _parameters(form: Mapping[str, Ask], spellings: Mapping[str, list[str]], way: Mapping[str, str]) -> Iterable[str]:
    """The parameters of a function: those that are required first, in the spelling that *way* names."""
    required = [word for word, part in form.items() if part.required]
    for word in required:
        yield f"    {way[word]}: {_type(form[word].word, _INPUTS)},"
    for word, part in form.items():
        if word not in required:
            yield from (f"    {said}: {_type(part.word, _INPUTS)} | None = None," for said in spellings[word])


def _type(word: Word, types: Mapping[type[Word], str]) -> str:
    if isinstance(word, Choice):
        return f"{_alias(word)} | bool" if types is _INPUTS and word.choices.keys() >= YES_NO else _alias(word)
    return next(types[kind] for kind in type(word).__mro__ if kind in types)


def _series(job: AnyJob) -> set[str]:
    """The figures of *job* that are a list, one for each cast of a season, by the answer to its example."""
    if not any(getattr(WORDS[word], "steps", "") for word in job.answers):
        return set()
    figures = answer(job, job.example, doubt=False)["result"]
    return {
        word
        for word, value in figures.items()
        if isinstance(WORDS[word], Quantity) and isinstance(value, (list, tuple))
    }


def _alias(word: Choice) -> str:
    """The name of the type of a choice."""
    return f"{_camel(word.name)}Choice"


def _camel(name: str) -> str:
    return "".join(part.capitalize() for part in name.split("_"))


def _quoted(value: str) -> str:
    return f'"{value}"'


if __name__ == "__main__":
    main()
