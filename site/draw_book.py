"""The page of the heap book: which heap, what it is now, how to record an event, what happened, and the file to keep.

Nothing about a heap is known when the site is built, so the page consists of slots and rows for the browser to fill. The
forms for recording are drawn from the library's own list of events.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

import draw
import draw_answer
import draw_charts
import draw_fields
import draw_words
from draw_tag import Markup, join, symbol, tag

Event = Mapping[str, Any]
JOB = "heap"
AGAIN = "poured"
AGAIN_WORDS = ("metal", "metal_kg", "pattern", "flask_sand_kg", "modulus_mm", "pour_temp_c")
"""What two casts of the same pattern have in common; what was weighed or timed at one cast is not copied to the next."""
NAME_LENGTH = 40


def page() -> Markup:
    """The whole page."""
    return tag(
        "div",
        _head(),
        draw_answer.not_started(),
        _first(),
        tag("div", _now(), _record(), _notes(), _timeline(), _rest(), _others(), data_open_book=True, hidden=True),
        _keep(),
        tag("p", class_="unseen", role="status", data_announce=True),
        draw_answer.templates(),
        _templates(),
        class_="book today",
        data_book=True,
        data_again=AGAIN,
        data_again_words=json.dumps(AGAIN_WORDS),
        data_search_exclude=True,
    )


def events() -> list[Event]:
    """What can be recorded, in the library's order."""
    return list(draw.description()["events"])


def _head() -> Markup:
    return tag(
        "header",
        tag("h1", draw.job_named(JOB)["title"]),
        draw_answer.engine(),
        tag("p", data_notice=True, class_="notice", role="status", hidden=True),
        tag("p", data_reminder=True, class_="notice", role="status", hidden=True),
        tag("noscript", tag("p", "The book needs JavaScript, because it is kept in this browser.", class_="notice")),
        class_="question",
    )


def _first() -> Markup:
    """If there is no book yet: how to start one, and a worked example."""
    job = draw.job_named(JOB)
    answer = draw.ask({"job": JOB, "inputs": job["example"]})
    begin = tag(
        "section",
        tag("h2", "Start a book for your heap"),
        tag(
            "p",
            "It records what went in and what each cast used up, and works out what the heap is now. It stays on this device.",
        ),
        _named("Name of the heap", "The heap", ("begin", "Start the book")),
        class_="card first-timer",
    )
    example = tag(
        "section",
        tag("h2", "Worked example"),
        tag("p", job["story"], " ", tag("b", answer["headline"])),
        tag("div", *(draw_answer.strip(svg) for svg in answer["drawings"].values()), class_="strips"),
        draw_answer.key(),
        tag(
            "table",
            tag("caption", "The heap at the end of the example"),
            tag("tbody", *(draw_answer.row(line) for line in answer["shown"])),
            class_="rows",
        ),
    )
    return tag("div", begin, example, data_no_book=True, data_waiting=True)


def _named(label: str, value: str, *deeds: tuple[str, str]) -> Markup:
    """A box for a name, and buttons to use it."""
    name = f"name-{deeds[0][0]}"
    box = tag("input", id=name, type="text", maxlength=NAME_LENGTH, value=value, autocomplete="off", data_name=True)
    buttons = [tag("button", words, type="button", class_="deed quiet", data_deed=deed) for deed, words in deeds]
    return tag("div", tag("label", label, for_=name), tag("span", box, class_="box"), *buttons, class_="named")


def _now() -> Markup:
    which = tag("select", class_="heap-name", data_which=True, aria_label="Heap")
    badge = draw_answer.badge({"word": "no entry yet", "tone": "plain"})
    return tag(
        "section",
        tag("div", which, badge, class_="heap-head"),
        tag("p", data_slot="sentence", class_="heap-sentence"),
        draw_words.heap_figures(),
        tag("p", class_="heap-age", data_slot="age"),
        class_="card heap",
        data_heap=True,
        data_tone="plain",
        aria_label="The heap now",
    )


def _record() -> Markup:
    """Record the last cast again in two taps; anything else takes one more tap."""
    sure = tag(
        "div",
        tag("p", "This is written, with the time of now:"),
        tag("ul", data_list="again-words"),
        tag(
            "p",
            "Everything else is worked out or left open. Weigh what is different, and use “Change it first”.",
            class_="hint",
        ),
        tag("button", "Record it", type="button", class_="deed", data_deed="confirm"),
        tag("button", "Change it first", type="button", class_="deed quiet", data_deed="change"),
        tag("button", "Not now", type="button", class_="deed quiet", data_deed="leave"),
        class_="card sure",
        data_sure=True,
        hidden=True,
    )
    again = tag(
        "button",
        tag("b", "Again: "),
        tag("span", data_slot="again"),
        type="button",
        class_="deed again",
        data_deed="again",
        hidden=True,
    )
    first = tag("button", "Record a cast", type="button", class_="deed again", data_record=AGAIN)
    other = tag(
        "details",
        tag("summary", "Something else happened", symbol("on")),
        tag("ul", *(_kind(event) for event in events()), class_="doors kinds"),
        class_="more",
        data_else=True,
    )
    saved = tag("p", class_="saved", role="status", data_saved=True, data_tone="plain")
    place = tag("div", data_form_place=True)
    drafts = tag(
        "div",
        tag("h3", "Not recorded yet"),
        tag("ul", data_draft_list=True),
        class_="drafts",
        data_drafts=True,
        hidden=True,
    )
    return tag(
        "section",
        tag("h2", "Record"),
        again,
        first,
        sure,
        other,
        place,
        saved,
        drafts,
        class_="record",
        id="record",
        data_event_form=True,
    )


def _kind(event: Event) -> Markup:
    words = tag("span", tag("b", event["label"]), tag("small", event["help"]), class_="door-words")
    return tag("li", tag("button", words, symbol("on"), type="button", class_="door", data_record=event["kind"]))


def _timeline() -> Markup:
    return tag(
        "section",
        tag("h2", "What happened"),
        tag("div", class_="chips filter", role="radiogroup", aria_label="Show only", data_filter=True),
        tag("p", class_="saved", role="status", data_undone_said=True, data_tone="plain"),
        tag("ol", class_="timeline", data_list="timeline"),
        tag("button", "Show all", type="button", class_="deed quiet", data_deed="all", hidden=True),
        data_timeline=True,
        hidden=True,
    )


def _notes() -> Markup:
    """The drawings, cautions and remarks about the heap."""
    return tag(
        "section",
        tag("div", class_="strips", data_list="drawings"),
        draw_answer.key(),
        tag("ul", class_="cautions", data_list="cautions"),
        tag("ul", class_="remarks", data_list="remarks"),
        data_rest=True,
        hidden=True,
    )


def _rest() -> Markup:
    """The charts, and the table of all figures."""
    return tag("section", draw_charts.charts(()), draw_answer.figures(()), data_rest=True, hidden=True)


def _others() -> Markup:
    """Start another heap, or rename this one."""
    return tag(
        "details",
        tag("summary", "Another heap, or another name", symbol("on")),
        _named("Name", "", ("rename", "Rename this heap"), ("another", "Start another heap")),
        class_="more",
        data_heaps=True,
    )


def _keep() -> Markup:
    """Export and import, and how well the book is kept on this device."""
    deeds = (("export", "Export all books"), ("csv", "For a spreadsheet (CSV)"))
    buttons = [tag("button", words, type="button", class_="deed quiet", data_deed=deed) for deed, words in deeds]
    file = tag(
        "input", type="file", id="import", accept=".json,application/json", class_="unseen-file", data_import=True
    )
    choose = tag("label", "Import a file", for_="import", class_="deed quiet pick")
    return tag(
        "section",
        tag("h2", "Keep a copy"),
        tag("p", data_kept_words=True),
        tag("p", data_export_words=True),
        tag("div", *buttons, file, choose, class_="deeds"),
        tag("div", data_asking=True, class_="card sure", role="group", aria_label="Import", hidden=True),
        tag("p", class_="deed-said", role="status", data_file_said=True),
        tag("ul", class_="replaced", data_replaced=True, hidden=True),
        class_="book-keep",
    )


def _templates() -> Markup:
    blanks = {f"kind-{event['kind']}": _form(event) for event in events()}
    blanks |= {
        "entry": _entry(),
        "filter": _filter(),
        "draft": _kept(("go-on", "Go on with it")),
    }
    return join(import_templates(), _drawn(blanks))


def import_templates() -> Markup:
    """What the import of a file asks and keeps."""
    return _drawn({"clash": _clash(), "change": _change(), "replaced": _kept(("bring-back", "Bring it back"))})


def _drawn(blanks: Mapping[str, Markup]) -> Markup:
    return join(*(tag("template", blank, data_template=name) for name, blank in blanks.items()))


def _form(event: Event) -> Markup:
    """The form of one kind of event."""
    words = draw.description()["words"]
    known = [ask for ask in event["asks"] if ask["word"] in words]
    fields = {
        place: [draw_fields.field(ask, words[ask["word"]]) for ask in known if ask.get("place", "first") == place]
        for place in ("first", "more")
    }
    when = tag("input", type="datetime-local", id="event-at", data_at=True)
    note = tag("input", type="text", id="event-note", autocomplete="off", maxlength=400, data_note=True)
    by_hand = [
        tag(
            "div",
            tag("label", "When (if not now)", for_="event-at"),
            tag("span", when, class_="box"),
            class_="field",
        )
    ]
    if "note" not in {ask["word"] for ask in known}:
        by_hand.append(
            tag("div", tag("label", "A note", for_="event-note"), tag("span", note, class_="box"), class_="field")
        )
    return tag(
        "form",
        tag("h3", event["label"]),
        tag("p", event["help"], class_="story"),
        tag(
            "p",
            "This corrects the entry. The first version stays in the book too.",
            class_="story",
            data_putting_right=True,
            hidden=True,
        ),
        draw.others(),
        draw.summary("Not recorded yet", "h4"),
        draw.said(),
        tag("div", *fields["first"], class_="ruled"),
        tag(
            "details",
            tag("summary", "Date and more", symbol("on")),
            tag("div", *fields["more"], *by_hand, class_="ruled"),
            class_="more",
            data_more=True,
        ),
        tag("button", "Record it", type="submit", class_="deed", data_submit=True),
        tag("button", "Not now", type="button", class_="deed quiet", data_deed="leave"),
        class_="form card",
        data_event=event["kind"],
        data_labels=json.dumps({ask["word"]: ask["label"] for ask in known}, ensure_ascii=False),
        novalidate=True,
        autocomplete="off",
    )


def _entry() -> Markup:
    """One entry of the timeline."""
    undo = tag("button", "Undo", type="button", class_="deed quiet", data_undo=True, hidden=True)
    right = tag("button", "Correct", type="button", class_="deed quiet", data_right=True, hidden=True)
    head = tag("p", tag("b", data_slot="label"), " ", tag("small", tag("time", data_slot="at")), class_="entry-head")
    mark = tag("p", "undone", class_="entry-undone", data_undone=True, hidden=True)
    words = tag("p", data_slot="text", class_="entry-text")
    note = tag("p", data_slot="note", class_="entry-note")
    return tag(
        "li",
        head,
        mark,
        words,
        note,
        tag("ul", data_list="lines"),
        tag("p", right, undo, class_="entry-deeds"),
        class_="event",
    )


def _filter() -> Markup:
    return tag("label", tag("input", type="radio", name="filter"), tag("span", data_slot="label"), class_="chip")


def _change() -> Markup:
    """Settings, forms or patterns in a file: taken over or not."""
    chips = [
        draw_fields.chip(None, value, words, value == "keep")
        for value, words in (("keep", "Leave it out"), ("replace", "Take it over"))
    ]
    return tag(
        "div",
        tag("p", data_slot="words"),
        tag("div", *chips, class_="chips", role="radiogroup", aria_label="Settings, forms and patterns"),
    )


def _clash() -> Markup:
    """A book in the file has the same name as a book here."""
    chips = [
        draw_fields.chip(None, value, words, value == "both")
        for value, words in (("both", "Keep both"), ("replace", "Replace the one here"))
    ]
    sizes = [tag("p", data_slot=slot, class_="clash-said") for slot in ("here", "file", "newer")]
    return tag(
        "fieldset", tag("legend", data_slot="words"), *sizes, tag("div", *chips, class_="chips"), class_="choice"
    )


def _kept(deed: tuple[str, str]) -> Markup:
    """One thing that is kept aside: what it is, a button to have it back, and one to throw it away."""
    name, words = deed
    back = tag("button", words, type="button", class_="deed quiet", **{f"data-{name}": True})
    drop = tag("button", "Throw it away", type="button", class_="deed quiet", data_drop=True)
    return tag("li", tag("p", data_slot="words"), tag("div", back, drop, class_="deeds"), class_="kept-aside")
