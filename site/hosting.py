"""How a web server sends the built site: types, compression, caching and policy, written as each of the common hosts wants it.

The rules are the same everywhere. What has the hash of its content in its name never changes and is kept for a year. Everything else is
asked for again each time, and answered with *not modified* if it is the same. The service worker keeps the whole site on its own.
"""

from __future__ import annotations

import re

import policy
from draw_tag import Markup, tag
from server import COMPRESSED, TYPES

HASHED = ("/py/*", "/assets/*")
"""Folders in which every file, or the folder below, has a hash in its name."""
FOR_A_YEAR = "public, max-age=31536000, immutable"
ASK_AGAIN = "no-cache"
NOT_FOUND = "/404.html"
HTML = "text/html"
ROOT = "/srv/sandmix"
"""Where the examples suppose the built files to be."""


def underscore_headers() -> str:
    """The file `_headers`, which several static hosts and this project's own server read: a path pattern, then indented lines.

    It gives no rule for what is asked for again: such hosts do that by themselves, and two rules for one header would be joined.
    """
    blocks = {"/*": policy.headers()} | {pattern: {"Cache-Control": FOR_A_YEAR} for pattern in HASHED}
    return "\n".join(line for path, headers in blocks.items() for line in (path, *_lines(headers, "  {}: {}"))) + "\n"


def nginx() -> str:
    """A server block for nginx."""
    kept, other = (
        "\n".join(_lines(policy.headers() | {"Cache-Control": value}, '        add_header {} "{}" always;'))
        for value in (FOR_A_YEAR, ASK_AGAIN)
    )
    types = "\n".join(f"        {kind.partition(';')[0]} {' '.join(ends)};" for kind, ends in _ends_by_type().items())
    folders = "|".join(re.escape(pattern.removesuffix("*")) for pattern in HASHED)
    return f"""server {{
    listen 80;
    root {ROOT};
    charset utf-8;
    charset_types text/css text/javascript text/plain text/markdown;
    default_type application/octet-stream;
    types {{
{types}
    }}
    gzip on;
    gzip_vary on;
    gzip_types {" ".join(_compressed())};
    error_page 404 {NOT_FOUND};
    location / {{
{other}
    }}
    location ~ ^(?:{folders}) {{
{kept}
    }}
}}
"""


def apache() -> str:
    """The file `.htaccess` for Apache, with its modules headers, mime, deflate and filter; it goes into the folder of the site."""
    types = "\n".join(f"AddType {kind.replace('; ', ';')} {' '.join(f'.{end}' for end in ends)}"
                      for kind, ends in _ends_by_type().items())  # fmt: skip
    folders = "|".join(re.escape(pattern.removesuffix("*").removeprefix("/")) for pattern in HASHED)
    return f"""Options -Indexes
ErrorDocument 404 {NOT_FOUND}
{types}
AddOutputFilterByType DEFLATE {HTML} {" ".join(_compressed())}
# Apache marks the tag of what it compressed, and then no longer knows it again.
RequestHeader edit "If-None-Match" "-gzip\\"$" "\\""
{_joined(policy.headers(), 'Header always set {} "{}"')}
Header set Cache-Control "{ASK_AGAIN}"
<If "%{{REQUEST_URI}} =~ m#/(?:{folders})#">
    Header set Cache-Control "{FOR_A_YEAR}"
</If>
"""


def caddy() -> str:
    """A site block for Caddy, which gets its own certificate if the name in the first line is a domain."""
    return f"""localhost {{
    root * {ROOT}
    encode zstd gzip
    header {{
{_joined(policy.headers(), '        {} "{}"')}
    }}
    @hashed path {" ".join(HASHED)}
    header @hashed Cache-Control "{FOR_A_YEAR}"
    @others not path {" ".join(HASHED)}
    header @others Cache-Control "{ASK_AGAIN}"
    @manifest path *.webmanifest
    header @manifest Content-Type "{TYPES[".webmanifest"]}"
    handle_errors {{
        rewrite * {NOT_FOUND}
        file_server
    }}
    file_server
}}
"""


WRITTEN = {"headers": underscore_headers, "nginx": nginx, "apache": apache, "caddy": caddy}
"""The hosts by the name that the page for them uses."""


def example(name: str) -> Markup:
    """What a host's file says, for the page about hosts."""
    return tag("pre", tag("code", WRITTEN[name]()))


def _lines(headers: dict[str, str], form: str) -> list[str]:
    return [form.format(name, value) for name, value in headers.items()]


def _joined(headers: dict[str, str], form: str) -> str:
    return "\n".join(_lines(headers, form))


def _ends_by_type() -> dict[str, list[str]]:
    """The ends of the names of the site's files by media type."""
    ends: dict[str, list[str]] = {}
    for end, kind in TYPES.items():
        ends.setdefault(kind, []).append(end.removeprefix("."))
    return ends


def _compressed() -> list[str]:
    """The types worth compressing except HTML, which nginx compresses without being told, and warns if it is told."""
    bare = dict.fromkeys(kind.partition(";")[0] for kind in TYPES.values())
    return [kind for kind in bare if kind.startswith(COMPRESSED) and kind != HTML]
