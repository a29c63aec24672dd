"""The next visit starts from a snapshot of the started calculator: with the same answers, and never from one that is in doubt."""

from __future__ import annotations

import json

import pytest
from effort import is_long

from sandmix.facade import call

ASK_ALL = """async ([worker, requests]) => {
    const engine = new Worker(worker, { type: "module" });
    const said = new Map();
    const done = new Promise((resolve, reject) => engine.addEventListener("message", ({ data }) => {
        if (data.begins) said.set("begins", data.begins);
        if (data.trouble) reject(data.trouble);
        if (data.id !== undefined) said.set(data.id, data.text);
        if (said.has(requests.length - 1)) resolve();
    }));
    requests.forEach((text, id) => engine.postMessage({ id, text }));
    await done;
    engine.terminate();
    return [said.get("begins") ?? "files", requests.map((_, id) => said.get(id))];
}"""
DAMAGE = """async (how) => {
    const [name] = (await caches.keys()).filter((each) => each.startsWith("engine-"));
    const cache = await caches.open(name);
    const [request] = await cache.keys();
    const kept = await cache.match(request);
    const bytes = new Uint8Array(await kept.arrayBuffer());
    if (how === "cut") return cache.put(request, new Response(bytes.slice(0, bytes.length / 2), { headers: kept.headers }));
    if (how === "bit") bytes[bytes.length - 5_000_000] ^= 1;
    const headers = new Headers(kept.headers);
    if (how === "other answer") headers.set("X-Answer-Hash", "0");
    if (how === "other browser") {
        await cache.delete(request);
        return cache.put(request.url.replace(/\\?.*/, "?another"), new Response(bytes, { headers }));
    }
    return cache.put(request, new Response(bytes, { headers }));
}"""
TYPED = {"heap_kg": "25", "sample_wet_g": "500", "sample_dry_g": "488,5"}


def requests():
    """The worked example of every job (in a usual run, of every third), and a request that is refused."""
    jobs = json.loads(call('{"job": "describe"}'))["jobs"][:: 1 if is_long() else 3]
    examples = [json.dumps({"job": job["name"], "inputs": job["example"]}) for job in jobs]
    return [*examples, '{"job": "mix", "inputs": {"make_kg": "-3"}}', "nonsense"]


@pytest.fixture(scope="module")
def visited(browser, address):
    """A profile that has visited a job's page once, with its snapshot kept, and how to open a page in it."""
    context = browser.new_context(viewport={"width": 390, "height": 844})
    context.set_default_timeout(90_000)
    page = context.new_page()
    page.goto(f"{address}temper/")
    page.locator("html[data-snapshot=kept]").wait_for(state="attached", timeout=90_000)
    page.close()
    yield context
    context.close()


def test_a_start_from_a_snapshot_gives_the_same_answers_to_the_byte(visited, address):
    page = visited.new_page()
    page.goto(f"{address}temper/")
    page.locator("html[data-snapshot=used]").wait_for(state="attached")
    asked = requests()
    kept = page.evaluate(ASK_ALL, [f"{address}app/worker.js", asked])
    page.evaluate(
        "async () => Promise.all((await caches.keys()).filter(n => n.startsWith('engine-')).map(n => caches.delete(n)))"
    )
    fresh = page.evaluate(ASK_ALL, [f"{address}app/worker.js", asked])
    assert (kept[0], fresh[0]) == ("snapshot", "files")
    for request, one, other in zip(asked, kept[1], fresh[1], strict=True):
        assert one == other, request
    page.reload()
    page.locator("html[data-snapshot=kept]").wait_for(state="attached", timeout=90_000)
    page.close()


@pytest.mark.parametrize(
    "how", ["bit", *(pytest.param(how, marks=pytest.mark.full) for how in ("cut", "other answer", "other browser"))]
)
def test_a_snapshot_in_doubt_is_replaced_and_the_person_notices_nothing(how, visited, hand_on, address, answer):
    page = visited.new_page()
    page.goto(f"{address}offline/")
    page.evaluate(DAMAGE, how)
    hand = hand_on(page, address).open("temper")
    hand.type(TYPED).reads(answer("temper", TYPED))
    page.locator("html[data-snapshot=kept]").wait_for(state="attached", timeout=90_000)
    page.reload()
    page.locator("html[data-snapshot=used]").wait_for(state="attached")
    assert (
        page.evaluate(
            "async () => (await (await caches.open((await caches.keys()).find(n => n.startsWith('engine-')))).keys()).length"
        )
        == 1
    )
    page.close()


@pytest.mark.full
def test_no_snapshot_is_kept_where_there_is_little_room(new_context, address):
    """Every profile of these tests has as little."""
    page = new_context(keeps=True).new_page()
    page.goto(f"{address}temper/")
    page.locator("html[data-snapshot=none]").wait_for(state="attached", timeout=60_000)
    assert not [name for name in page.evaluate("caches.keys()") if name.startswith("engine-")]
