"""What a page is allowed to do: contact only this host, run no inline script, evaluate no text."""

from __future__ import annotations

import re

import pytest

INLINE = re.compile(r"<script(?![^>]*\bsrc=)(?![^>]*type=[\"']?application/json)[^>]*>", re.IGNORECASE)
HANDLER = re.compile(r"<[^>]+\son[a-z]+=", re.IGNORECASE)


def test_keeping_all_pages_contacts_no_other_host(new_context, address, watch):
    page = new_context(keeps=True).new_page()
    page.goto(address)
    page.locator("[data-offline-mark][data-offline=ready]").wait_for(state="attached", timeout=60_000)
    assert watch.hosts == {"127.0.0.1"}


def test_pages_and_workers_carry_the_policy_in_their_headers(page, address, pages):
    names = ["", *(f"{name}/" for name in pages if name), "app/worker.js", "sw.js", "app/main.js"]
    for name in names:
        policy = page.request.get(address + name).headers["content-security-policy"]
        rules = {rule.split()[0]: rule.split()[1:] for rule in policy.split(";")}
        assert rules["default-src"] == ["'none'"]
        assert "'unsafe-inline'" not in policy
        assert "'unsafe-eval'" not in policy
        sources = {source for allowed in rules.values() for source in allowed}
        assert sources <= {"'none'", "'self'", "'wasm-unsafe-eval'", "data:", "blob:"}


def test_no_built_page_holds_an_inline_script_or_handler(built):
    found = []
    for file in sorted(built.rglob("*.html")):
        text = file.read_text("utf-8")
        hits = [*INLINE.finditer(text), *HANDLER.finditer(text)]
        found += [(file.relative_to(built).as_posix(), hit.group()[:80]) for hit in hits]
    assert found == []


@pytest.mark.breaks
def test_no_page_can_evaluate_text_or_contact_other_hosts(page, address):
    page.goto(f"{address}temper/")
    tried = page.evaluate(
        """async () => { const heard = []; document.addEventListener("securitypolicyviolation", event => heard.push(event.effectiveDirective));
        const script = document.createElement("script"); script.textContent = "globalThis.ran = true; eval('globalThis.evaluated = true')";
        document.head.append(script);
        await fetch("http://127.0.0.1:9/").catch(() => {});
        await new Promise(done => setTimeout(done, 0));
        return { ran: globalThis.ran === true, evaluated: globalThis.evaluated === true, heard }; }"""
    )
    assert not tried["ran"]
    assert not tried["evaluated"]
    assert set(tried["heard"]) >= {"script-src-elem", "connect-src"}


def test_none_of_our_files_calls_eval(built):
    own = [*sorted((built / "app").rglob("*.js")), built / "sw.js"]
    assert own
    assert [file.name for file in own if re.search(r"\beval\(|new Function\(|innerHTML", file.read_text("utf-8"))] == []
