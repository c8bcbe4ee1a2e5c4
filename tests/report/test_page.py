"""The page as a browser shows it: widths, light and dark, print, accessibility, hostile text."""

from __future__ import annotations

import io
import shutil
from datetime import date
from pathlib import Path
from unicodedata import normalize

import pytest
from axe_playwright_python.sync_playwright import Axe
from hostile import LONG, SHORT, TAGS, description
from outcomes import example_outcome
from playwright.sync_api import sync_playwright
from pypdf import PdfReader

import shelfload
from shelfload.describe.examples import example_names
from shelfload.describe.reader import read_raw
from shelfload.errors import DescriptionError
from shelfload.report.labels import labels_page
from shelfload.report.page import page

MADE = date(2026, 3, 1)
WIDTHS = (360, 800, 1280)
# 12 mm margins at the sides, 14 and 16 mm above and below, at 96 px per inch
A4, LETTER = (210.0 - 24.0, 297.0 - 30.0), (215.9 - 24.0, 279.4 - 30.0)
PX = 96.0 / 25.4
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
needs_chromium = pytest.mark.skipif(
    CHROMIUM is None, reason="no Chromium here: install Debian's package chromium to run this"
)


@pytest.fixture(scope="module")
def browser():
    with sync_playwright() as running:
        opened = running.chromium.launch(
            executable_path=CHROMIUM,
            args=[
                "--no-sandbox",
                "--disable-gpu",
                "--disable-quic",
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync",
            ],
        )
        yield opened
        opened.close()


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    folder = tmp_path_factory.mktemp("pages")

    def written(name):
        path = folder / f"{name}.html"
        if not path.exists():
            path.write_text(html_of(name), encoding="utf-8")
        return path.as_uri()

    return written


def html_of(name):
    if name == "hostile":
        return page(shelfload.check_mapping(description()), "metric", made=MADE)
    if name == "hostile-labels":
        outcome = shelfload.check_mapping(description())
        return labels_page(outcome.title, outcome.findings, MADE)
    if name.endswith("-labels"):
        outcome = example_outcome(name.removesuffix("-labels"))
        return labels_page(outcome.title, outcome.findings, MADE)
    return page(example_outcome(name), "metric", made=MADE)


ALL = [*example_names(), "bench-bridge-labels", "hostile", "hostile-labels"]


def grave(view, rules=None):
    """Run the accessibility rules; everything of more than minor impact.

    Contrast is by far the slowest: without ``rules`` it is left to the test of colours.
    """
    options = {"rules": {"color-contrast": {"enabled": False}}}
    if rules is not None:
        options = {"runOnly": {"type": "rule", "values": rules}}
    return [
        (rule["id"], rule["nodes"][0]["html"][:200])
        for rule in Axe().run(view, options=options).response["violations"]
        if rule["impact"] != "minor"
    ]


@needs_chromium
@pytest.mark.parametrize("name", ALL)
def test_page_opens_quietly_sticks_out_nowhere_and_is_accessible(browser, pages, name):
    said = []
    view = browser.new_page(viewport={"width": 1000, "height": 900})
    view.on("console", lambda message: said.append(message.text))
    view.on("pageerror", lambda fault: said.append(str(fault)))
    view.on(
        "request",
        lambda request: said.append(request.url) if not request.url.startswith("file:") else None,
    )
    view.goto(pages(name))
    for width in WIDTHS:
        view.set_viewport_size({"width": width, "height": 900})
        wide, widest = view.evaluate(
            """() => [document.documentElement.scrollWidth,
                Math.max(...[...document.querySelectorAll('body *')]
                    .filter(e => !e.closest('.scroll > *') && !e.matches('.skip, .away'))
                    .map(e => e.getBoundingClientRect().right))]"""
        )
        assert wide <= width
        assert widest <= width + 0.5
    assert view.evaluate("window.broken === undefined")
    assert view.evaluate("document.scripts.length") == 0
    assert said == []
    assert grave(view) == []
    view.close()


@needs_chromium
@pytest.mark.parametrize("name", ["paper-cupboards", "wall-cupboard", "paper-cupboards-labels"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_colours_contrast_and_cards_keep_their_roles(browser, pages, name, scheme):
    view = browser.new_page(color_scheme=scheme, viewport={"width": 360, "height": 900})
    view.goto(pages(name))
    rules = [
        "color-contrast",
        "aria-required-children",
        "aria-required-parent",
        "empty-table-header",
    ]
    assert grave(view, rules) == []
    view.close()


@needs_chromium
@pytest.mark.parametrize("name", ALL)
def test_printed_drawings_are_whole_on_both_papers(browser, pages, name):
    view = browser.new_page(color_scheme="dark")
    view.goto(pages(name))
    view.emulate_media(media="print")
    for room in (A4, LETTER):
        view.set_viewport_size({"width": int(room[0] * PX), "height": int(room[1] * PX)})
        boxes = view.evaluate(
            """() => [...document.querySelectorAll('figure, table, li')].map(e => {
                const b = e.getBoundingClientRect();
                return [e.localName, b.left, b.right, b.height]; })"""
        )
        for kind, left, right, height in boxes:
            assert left >= 0.0
            assert right <= room[0] * PX + 0.5
            if kind == "figure":
                assert height <= room[1] * PX
    view.close()


def plain(text):
    """Return text without spaces and ligatures, which print adds as it likes."""
    return "".join(normalize("NFKC", text).split())


@needs_chromium
@pytest.mark.parametrize(
    ("name", "paper"),
    [(name, "A4") for name in example_names()] + [("bench-boxes", "Letter")],
)
def test_printed_page_holds_each_drawing_on_one_sheet(browser, pages, name, paper):
    view = browser.new_page(color_scheme="dark")
    view.goto(pages(name))
    drawn = view.evaluate(
        """() => [...document.querySelectorAll('figure')].map(e => [
            e.querySelector('figcaption').textContent,
            [...e.querySelectorAll('text')].map(t => t.textContent)])"""
    )
    printed = PdfReader(io.BytesIO(view.pdf(format=paper, prefer_css_page_size=True)))
    wide = {"A4": 595, "Letter": 612}[paper]  # points
    assert all(abs(float(one.mediabox.width) - wide) < 2 for one in printed.pages)
    sheets = [plain(one.extract_text()) for one in printed.pages]
    assert drawn
    for caption, written in drawn:
        wanted = [plain(text) for text in (caption, *written)]
        missing = [[text for text in wanted if text not in sheet] for sheet in sheets]
        assert min(missing, key=len) == []
    view.close()


@needs_chromium
def test_hostile_text_is_shown_as_it_was_written(browser, pages):
    view = browser.new_page()
    view.goto(pages("hostile"))
    shown = view.evaluate("document.body.textContent")
    assert LONG in shown
    assert TAGS in shown
    assert SHORT in shown
    assert view.evaluate("document.querySelectorAll('img, script, b, i').length") == 0
    view.close()


@needs_chromium
def test_keyboard_reaches_the_report_past_the_links(browser, pages):
    view = browser.new_page()
    view.goto(pages("paper-cupboards"))
    view.keyboard.press("Tab")
    assert view.evaluate("document.activeElement.className") == "skip"
    view.keyboard.press("Enter")
    assert view.evaluate("location.hash") == "#main"
    view.close()


@pytest.mark.parametrize("name", list(example_names()))
def test_page_needs_nothing_from_elsewhere_and_says_the_verdict_first(name):
    html = page(example_outcome(name), "metric", made=MADE)
    assert "<script" not in html
    for call in ('src="http', "@import", "url(http", "<link"):
        assert call not in html
    outcome = example_outcome(name)
    verdict = outcome.verdict.value
    assert html.casefold().index(f"<strong>{verdict}") < html.index("What to do")
    assert "2026-03-01" in html
    order = [html.index(f">{title}</h2>") for title in ("What to do", "Assumed", "Cautions")]
    assert order == sorted(order)
    for title in ("Weights to lift", "Cut sizes", "Sources"):
        assert f">{title}</h2>" in html


@pytest.mark.parametrize("system", ["metric", "inch"])
def test_page_has_every_drawing_and_every_row_of_the_report(system):
    from shelfload.report.document import Table, document

    outcome = example_outcome("bench-boxes")
    html = page(outcome, system, full=True)
    rows = sum(
        len(block.rows)
        for block in document(outcome, system, full=True).blocks
        if isinstance(block, Table)
    )
    assert html.count('<tr role="row">') > rows
    assert html.count("<svg") == html.count("</svg>") >= 3
    assert html.count("<figcaption>") == html.count("<svg")


def test_folder_of_templates_travels_with_the_package():
    folder = Path(shelfload.__file__).parent / "report" / "templates"
    assert {one.name for one in folder.iterdir()} >= {"page.html", "page.css", "labels.html"}


def _with(path, text):
    """Return the hostile description with one field replaced, given by its keys."""
    raw = description()
    *way, last = path
    place = raw
    for key in way:
        place = place[key]
    place[last] = text
    return raw


@pytest.mark.parametrize(
    "path",
    [
        ("title",),
        ("unit", 0, "name"),
        ("shelf", 0, "name"),
        ("site", "wall_layers", 0, "what"),
        ("materials", SHORT, "title"),
        ("materials", SHORT, "source"),
        ("contents", SHORT, "title"),
        ("contents", SHORT, "source"),
        ("fixings", SHORT, "title"),
        ("fixings", SHORT, "source"),
        ("unit", 1, "rests_on", "what"),
        ("unit", 1, "rests_on", "source"),
    ],
    ids=lambda path: ".".join(str(key)[:9] for key in path),
)
@pytest.mark.parametrize("hidden", ["\u202e", "\u200f", "\u0007", "\u0000", "\ue000"])
def test_hidden_characters_in_free_text_are_a_mistake(path, hidden):
    # right-to-left override and mark, bell, nul, and a private-use one
    with pytest.raises(DescriptionError, match="without control characters"):
        read_raw(_with(path, f"a{hidden}b"))
