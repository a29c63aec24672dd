"""Each host is told the same: types, compression, caching and policy."""

import pytest

import hosting
import policy
from server import TYPES, headers_for, read_rules

OTHERS = sorted(set(hosting.WRITTEN) - {"headers"})


@pytest.mark.parametrize("host", sorted(hosting.WRITTEN))
def test_every_host_sends_every_header_of_the_policy(host: str) -> None:
    written = hosting.WRITTEN[host]()
    for name, value in policy.headers().items():
        assert f"{name}" in written
        assert value in written


@pytest.mark.parametrize("host", OTHERS)
def test_every_host_keeps_hashed_files_for_a_year_and_asks_for_the_others(host: str) -> None:
    written = hosting.WRITTEN[host]()
    assert hosting.FOR_A_YEAR in written
    assert hosting.ASK_AGAIN in written


@pytest.mark.parametrize("host", ["nginx", "apache"])
def test_hosts_that_do_not_know_a_type_are_given_all_of_them(host: str) -> None:
    written = hosting.WRITTEN[host]()
    for end, kind in TYPES.items():
        line = next(
            line
            for line in written.splitlines()
            if end.removeprefix(".") in line.replace(";", " ").replace(".", "").split()
        )
        assert kind.partition(";")[0] in line


@pytest.mark.parametrize(
    ("path", "caching"),
    [
        ("/py/0123/interpreter.bin", hosting.FOR_A_YEAR),
        ("/assets/stylesheets/main.0123.min.css", hosting.FOR_A_YEAR),
        ("/sw.js", None),
        ("/temper/", None),
        ("/app/main.js", None),
    ],
)
def test_only_what_has_a_hash_in_its_address_is_kept(path: str, caching: str | None) -> None:
    assert headers_for(path, read_rules(hosting.underscore_headers())).get("Cache-Control") == caching
