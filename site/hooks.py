"""The MkDocs events; each calls a function of another file."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from mkdocs.structure.files import File

import bundle
import draw
import draw_answer
import draw_book
import draw_casting
import draw_checks
import draw_defects
import draw_handbook
import draw_icons
import draw_job_book
import draw_library
import draw_licences
import draw_patterns
import draw_record
import draw_settings
import draw_tag
import draw_terms
import draw_words
import handbook_pages
import hosting
import lazy_search
import marking
import menu
import offline
import policy
import runtime
import sbom
import shipped

MARKER = re.compile(r"<p>\{\{ (\w+)((?: \w+)*) \}\}</p>|\{\{ (\w+)((?: \w+)*) \}\}")
"""A name with what it is about; where it is a paragraph of its own, what is drawn takes the paragraph's place."""
SEARCH = re.compile(r'"search": "([./]*)assets/javascripts/workers/search\.[^"]+"')
"""Where the theme says which worker searches, after the way to the site's root."""
READER_STYLES = "assets/_mkdocstrings.css"
"""The styles of what reads the docstrings: no page uses them."""
PYTHON: list[runtime.Report] = []
"""The Python that was built for the browser."""
BUNDLED: list[bundle.Bundle] = []
"""The page's scripts and styles."""
SHIPPED: list[shipped.Part] = []
"""All parts of the site, with their terms."""
DRAWN: dict[str, Callable[..., str]] = {
    "fields": draw.fields_table,
    "terms": draw_terms.glossary,
    "words": draw_words.quantities,
    "hosting": hosting.example,
    "sources": draw_words.bibliography,
    "checks": draw_checks.page,
    "checked": draw_checks.checked,
    "first_jobs": draw_words.first_jobs,
    "tools": draw_words.tools,
    "heap": draw_words.heap_figures,
    "casting": draw_casting.home,
    "functions": draw_library.functions,
    "chapters": draw_library.chapter_list,
    "commands": draw_library.commands,
    "defects": draw_defects.defects,
    "book": draw_book.page,
    "settings": draw_settings.page,
    "licences": lambda: draw_licences.page(SHIPPED),
    "record_row": draw_record.template,
    "badge": lambda: draw_answer.badge({"word": "test it", "tone": "care"}),
    **draw_handbook.DRAWN,
}
UNUSED = re.compile(
    r"^assets/(?:javascripts/(?:lunr/|.*\.map$)|stylesheets/.*\.map$|images/favicon)|^app/.*\.(?:js|css)$"
)
"""Files of the theme that no page asks for, and the sources of what is bundled."""
UNMARKED = (
    "words.md", "sources.md", "checks.md", "door.md", "python.md", "command-line.md", "changes.md", "hosting.md", "licences.md", "settings.md",
)  # fmt: skip
"""Pages in which no trade word opens: the glossary itself, lists, settings, and what is written for developers."""


def on_config(config: Any) -> Any:
    """The menu is drawn from the jobs."""
    config["nav"] = menu.nav()
    return config


def on_files(files: Any, config: Any) -> Any:
    """Add a page for each job, leave out files that no page uses, and build what pages name: the scripts, and Python with its size."""
    for job in menu.jobs():
        if not files.get_file_from_path(f"{job['page']}.md"):
            files.append(File.generated(config, f"{job['page']}.md", content=menu.page_of(job["name"])))
    for chapter in draw_library.chapters():
        page = draw_library.page_of(chapter)
        files.append(File.generated(config, f"{draw_library.FOLDER}{chapter}.md", content=page))
    for file in list(files):
        if UNUSED.match(file.src_uri) or UNUSED.match(file.dest_uri):
            files.remove(file)
    files.append(File.generated(config, draw_handbook.BOOK, content=draw_handbook.book()))
    out = Path(config["site_dir"])
    PYTHON[:] = [runtime.build(out / "py")]
    packages = runtime.core_folder().parent
    BUNDLED[:] = [bundle.write(packages, out / "app", python=PYTHON[0].folder.name)]
    SHIPPED[:] = shipped.parts(packages, BUNDLED[0].packages)
    return files


def on_page_markdown(markdown: str, page: Any, config: Any, files: Any) -> str:
    """A job's page and its method page take their titles from the job's row."""
    if page.file.src_uri.startswith("method/"):
        title = menu.method_title(Path(page.file.src_uri).stem)
        page.meta["title"] = title
        return f"# {title}\n\n{markdown}"
    job = page.meta.get("job")
    if job:
        page.meta["title"] = draw.job_named(job)["title"]
        page.meta["template"] = "job.html"
        page.meta["hide"] = ["toc"]
    return markdown


def with_drawn(html: str) -> str:
    """A page with each of its markers replaced."""
    return MARKER.sub(lambda found: DRAWN[found[1] or found[3]](*(found[2] or found[4] or "").split()), html)


def on_page_content(html: str, page: Any, config: Any, files: Any) -> str:
    """Replace each marker with what is drawn from the library's description, and link each formula to its checks."""
    html = draw_checks.with_links(with_drawn(html))
    job = page.meta.get("job")
    if chapter := handbook_pages.page_at(page.file.src_uri):
        html += draw_handbook.end(chapter.name, page.markdown)
    if job:
        html = f"{draw.page(job)}{draw_job_book.for_job(job)}{draw_patterns.for_job(job)}{html}"
    if page.file.src_uri in UNMARKED or page.file.src_uri.startswith(draw_library.FOLDER):
        return html
    if job or page.meta.get("template"):
        return marking.drawn_page(html, base_of(page))
    return marking.page_of_text(html, base_of(page))


def on_env(env: Any, config: Any, files: Any) -> Any:
    """Give the templates the values they use."""
    env.globals["runtime_mb"] = f"{sum(PYTHON[0].files.values()) / 1e6:.1f}"
    env.globals["scripts_of"] = BUNDLED[0].scripts_of
    env.globals["calculates"] = bundle.calculates
    env.globals["policy_meta"] = policy.meta()
    env.globals["plan_takes"] = " ".join(draw_settings.plan_takes())
    env.globals["sign"] = draw_tag.symbol
    config["extra_css"] = [path for path in config["extra_css"] if path != READER_STYLES]
    return env


def on_post_page(output: str, page: Any, config: Any) -> str:
    """Move inline scripts to files, and let the search wait for a question."""
    return finished(output, config, base_of(page))


def base_of(page: Any) -> str:
    """The way from a page to the root of the site."""
    url = str(page.url)
    return "../" * url.rstrip("/").count("/") + ("../" if url.strip("./") else "")


def on_post_template(output_content: str, template_name: str, config: Any) -> str:
    """The page for a wrong address is not one of the pages; hosts show it at any depth, so its links are absolute."""
    if not template_name.endswith(".html"):
        return output_content
    return finished(output_content, config, urlsplit(config["site_url"] or "/").path)


def finished(html: str, config: Any, base: str) -> str:
    """A page whose scripts are files, and whose search is started by a worker of this site."""
    html = SEARCH.sub(r'"search": "\1app/search-worker.js"', html)
    return policy.move_inline_scripts(html, Path(config["site_dir"]) / "app", base)


def on_post_build(config: Any) -> None:
    """Write the icons, the headers, the list of parts, and last the list of all files to keep offline."""
    out = Path(config["site_dir"])
    draw_icons.write(out / "app")
    (out / "_headers").write_text(hosting.underscore_headers(), encoding="utf-8")
    for name in ("sitemap.xml", "sitemap.xml.gz", READER_STYLES):
        (out / name).unlink(missing_ok=True)
    draw_terms.write(out)
    lazy_search.part(out)
    sbom.write(out, SHIPPED)
    offline.write(out)
