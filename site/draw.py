"""Draw a job's page from the library's description of it, at build time, with the worked example already answered."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from functools import cache
from typing import Any

import checkout
import draw_answer
import draw_day
import draw_fields
import draw_paper
import draw_rows
import draw_tests
from draw_tag import Markup, symbol, tag

Job = Mapping[str, Any]
ONE_SAMPLE = ("sample_wet_g", "sample_dry_g")
"""Weighings that belong to one test: carried to another page, an old sample would look like a new test."""


OWN_BOOK_PAGE = ("heap", "plan")
"""Jobs that ask for the book and whose pages send it in their own way."""
OF_BOOK = ("book", "now")
"""Words that a job's page fills in by itself: the book in use, and the time."""
FOLDED = ("pour",)
"""Jobs whose page has a list to tick: on a phone their form is folded where the casting fills it in, so that the list comes first."""
EMPTY_BOX = "this is empty"
"""How the library's message about an empty box begins: what it allows there needs no word before the box is reached."""


class NotAnswered(Exception):
    """The library refuses a request of the build, which then stops."""


@cache
def description() -> dict[str, Any]:
    """Everything that the library describes: words, jobs, sources."""
    return ask({"job": "describe"})


def ask(request: Mapping[str, Any]) -> dict[str, Any]:
    """Return the answer to one request; if it is refused, the build stops with the reason."""
    answer: dict[str, Any] = json.loads(checkout.door()(json.dumps(request)))
    if not answer.get("ok"):
        raise NotAnswered("; ".join(problem["message"] for problem in answer["problems"]) + f" ({request})")
    return answer


@cache
def job_named(name: str) -> Job:
    """The description of one job."""
    return next(job for job in description()["jobs"] if job["name"] == name)


def page(name: str) -> Markup:
    """The whole page of a job: question, form, answer bar, answer."""
    job = job_named(name)
    answer = ask({"job": name, "inputs": job["example"]})
    form = tag(
        "form",
        others(),
        summary(),
        said(),
        tag("div", *_asked(job, "first"), class_="ruled"),
        _more(job),
        tag("button", "Answer", type="submit", class_="deed", data_submit=True),
        class_="form card",
        id="form",
        tabindex="-1",
        data_form=name,
        novalidate=True,
        autocomplete="off",
    )
    return tag(
        "div",
        tag(
            "header",
            tag("h1", job["title"]),
            draw_day.for_casting(),
            draw_day.unfold() if name in FOLDED else None,
            tag("p", data_notice=True, class_="notice", hidden=True),
            tag(
                "noscript",
                tag(
                    "p",
                    "Without JavaScript the form cannot calculate. You can still read the worked example below.",
                    class_="notice",
                ),
            ),
            class_="question",
        ),
        draw_answer.not_started(),
        form,
        draw_answer.bar(needed(job)),
        draw_answer.full(answer, job["story"], given(job), name),
        draw_day.keep() if name == "plan" else None,
        draw_day.go_on("deed casting-on"),
        tag("p", class_="unseen", role="status", data_announce=True),
        draw_answer.templates(),
        draw_paper.template(name),
        class_="job",
        data_job=name,
        data_example=json.dumps(job["example"], ensure_ascii=False),
        data_shared=json.dumps(_shared(job)),
        data_labels=json.dumps({entry["word"]: entry["label"] for entry in job["asks"]}, ensure_ascii=False),
        data_units=json.dumps(_units(job), ensure_ascii=False),
        data_book_words=json.dumps(words) if (words := book_words(job)) else None,
        data_book_alone=bool(words) and not _asked(job, "first"),
        data_shorts=json.dumps({each["name"]: each["short"] for each in description()["jobs"]}, ensure_ascii=False),
    )


def book_words(job: Job) -> list[str]:
    """The words of a job that its page fills in from the book in use; none where the job reads no book."""
    asked = [entry["word"] for entry in job["asks"]]
    return [word for word in OF_BOOK if word in asked] if "book" in asked and job["name"] not in OWN_BOOK_PAGE else []


def needed(job: Job) -> dict[str, str]:
    """What an empty form needs first, in the words with which the page says it later (`needed.js`); or its answer, where it needs nothing."""
    answer: dict[str, Any] = json.loads(checkout.door()(json.dumps({"job": job["name"], "inputs": {}})))
    if "problems" not in answer:
        return {"label": answer["lead"]["label"], "text": answer["lead"]["text"], "sentence": answer["headline"]}
    labels = {entry["word"]: entry["label"] for entry in job["asks"]}
    first, *then = answer["problems"]
    advice = "" if EMPTY_BOX in first["message"] else first["message"].partition(". ")[2]
    after = ", ".join(labels[problem["word"]] for problem in then)
    return {
        "label": "Enter first",
        "text": labels[first["word"]],
        "sentence": " ".join(filter(None, (advice, f"Then: {after}." if after else ""))),
    }


def _shared(job: Job) -> list[str]:
    """The words that other jobs may carry in from this one: no limits and targets, no files, and no weighings of one sample."""
    known = [entry for entry in job["asks"] if not entry["exact"] and not _is_file(entry)]
    return [entry["word"] for entry in known if entry["word"] not in ONE_SAMPLE]


def _is_file(entry: Mapping[str, Any]) -> bool:
    """Whether a field takes a file, which is never passed from job to job."""
    return str(description()["words"][entry["word"]]["kind"]) == "upload"


def _units(job: Job) -> dict[str, str]:
    """The unit of each word of the form that has one."""
    words = description()["words"]
    return {entry["word"]: unit for entry in job["asks"] if (unit := words[entry["word"]].get("unit"))}


def given(job: Job) -> list[tuple[str, str]]:
    """The worked example's inputs under their labels."""
    return in_words(job, {word: value for word, value in job["example"].items() if word not in book_words(job)})


def in_words(job: Job, typed: Mapping[str, object]) -> list[tuple[str, str]]:
    """Inputs of a job under their labels, as a person reads them."""
    labels = {entry["word"]: entry["label"] for entry in job["asks"]}
    return [(labels[word], _in_words(description()["words"][word], value)) for word, value in typed.items()]


def _in_words(word: Mapping[str, Any], value: object) -> str:
    if word["kind"] in ("rows", "table"):
        return draw_rows.in_words(word, value)
    choices = {choice["value"]: choice["label"] for choice in word.get("choices", ())}
    if word["kind"] == "picks":
        return ", ".join(choices.get(key.strip(), key.strip()) for key in re.split("[;,]", str(value)))
    return str(choices.get(str(value), value))


def fields_table(name: str) -> Markup:
    """Every input and every figure of a job's answer, for its method page."""
    job, words = job_named(name), description()["words"]
    rows = [
        _word_row(words[word], role)
        for role, names in (("input", [a["word"] for a in job["asks"]]), ("answer", job["answers"]))
        for word in names
        if word in words
    ]
    head = tag("thead", tag("tr", *(tag("th", title, scope="col") for title in ("Word", "Used as", "Meaning"))))
    return tag("table", head, tag("tbody", *rows), class_="words-table")


def _word_row(word: Mapping[str, Any], role: str) -> Markup:
    name = tag("a", tag("code", word["name"]), href=f"../../words/#{word['name']}")
    return tag("tr", tag("td", name), tag("td", role), tag("td", word["label"], ". ", word["help"]))


def summary(words: str = "Not answered yet", heading: str = "h2") -> Markup:
    """All problems in one place; it takes the focus only when a person asks for an answer."""
    title = tag(heading, words, id="summary-title")
    return tag(
        "div",
        title,
        tag("ul", data_list="problems"),
        class_="summary",
        tabindex="-1",
        role="group",
        aria_labelledby="summary-title",
        data_summary=True,
        hidden=True,
    )


def said() -> Markup:
    """What a form did with a box that nobody sees who hears the page: a figure was converted to another unit."""
    return tag("p", class_="unseen", role="status", data_form_said=True)


def others() -> Markup:
    """What a link gives and the open form has no box for: it counts too, and a person can leave it out."""
    away = tag("button", "Leave it out", type="button", class_="deed quiet", data_leave_out=True)
    return tag("div", tag("p", data_slot="others"), away, class_="notice", data_others=True, hidden=True)


def _asked(job: Job, place: str) -> list[Markup]:
    """The fields of one place; a choice between ways to give the same thing stands where its first field would."""
    words, asks = description()["words"], {entry["word"]: entry for entry in job["asks"]}
    belongs = {
        word: choice for choice in job.get("ways", ()) for option in choice["options"] for word in option["words"]
    }
    only = {word: rule for rule in job.get("only_for", ()) for word in rule["words"]}
    drawn: list[Markup] = []
    done: set[str] = set()
    by_itself = book_words(job)
    for word, entry in asks.items():
        choice = belongs.get(word)
        if word in by_itself or _place(choice, entry, asks) != place or (choice and choice["name"] in done):
            continue
        drawn.append(
            draw_fields.way(choice, asks, words) if choice else draw_fields.field(entry, words[word], only.get(word))
        )
        if word == draw_tests.WORD:
            drawn.append(draw_tests.cards(description().get("tests", ())))
        if choice:
            done.add(choice["name"])
    return drawn


def _place(choice: Job | None, entry: Job, asks: Mapping[str, Job]) -> str:
    """The place of a field: with several ways, *first* if any of their fields belongs there."""
    if choice is None:
        return str(entry["place"])
    places = {asks[word]["place"] for option in choice["options"] for word in option["words"] if word in asks}
    return "first" if "first" in places else "more"


def _more(job: Job) -> Markup | None:
    fields = _asked(job, "more")
    if not fields:
        return None
    title = tag("summary", tag("span", "More (optional)", tag("span", data_filled_in=True)), symbol("on"))
    return tag("details", title, tag("div", *fields, class_="ruled"), class_="more", data_more=True)
