"""The page in a real browser: what lights up, by pointer or keyboard, and prints."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from tests.page.pages import EXAMPLES, NEWSROOM, made
from tests.programs import needed

LIT = """[...document.querySelectorAll('.lit[data-gap]')].map(
  (each) => each.tagName + each.dataset.gap)"""
HERE = "document.activeElement.tagName + document.activeElement.dataset.gap"


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    path = needed("chromium", "chromium")
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(
            executable_path=path, args=["--no-sandbox", "--disable-gpu"]
        )
        yield started
        started.close()


@pytest.fixture
def opened(browser: Browser, tmp_path: Path) -> Iterator[Page]:
    file = tmp_path / "page.html"
    file.write_text(made(NEWSROOM).html, "utf-8")
    context = browser.new_context(offline=True)
    page = context.new_page()
    complaints: list[str] = []
    page.on("console", lambda told: complaints.append(told.text))
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.on("request", lambda asked: complaints.append(asked.url))
    page.goto(file.as_uri())
    yield page
    assert complaints == [file.as_uri()]
    context.close()


def test_pointing_at_a_line_lights_its_gap_and_no_other(opened: Page) -> None:
    assert opened.evaluate(LIT) == []
    opened.hover("tr[data-gap='2']")
    assert opened.evaluate(LIT) == ["TR2", "g2"]
    opened.hover("h1")
    assert opened.evaluate(LIT) == []


def test_pointing_at_a_gap_lights_its_line(opened: Page) -> None:
    opened.locator("g[data-gap='1'] circle").first.hover()
    assert opened.evaluate(LIT) == ["TR1", "g1"]


def test_no_line_of_another_gap_lies_over_a_number(opened: Page) -> None:
    covered = opened.evaluate(
        """() => [...document.querySelectorAll(".glow circle")].filter((halo) => {
          halo.scrollIntoView({block: "center"});
          const box = halo.getBoundingClientRect();
          const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
          const over = document.elementFromPoint(x, y)?.closest(".glow");
          return over && over !== halo.parentElement;
        }).length"""
    )
    assert covered == 0


def test_a_dimension_lights_its_line(opened: Page) -> None:
    free = opened.evaluate(
        """() => [...document.querySelectorAll("g[data-line]")].flatMap((own) => {
          own.scrollIntoView({block: "center"});
          const box = own.querySelector("polyline")?.getBoundingClientRect();
          if (!box) return [];
          const at = [box.x + box.width / 2, box.y + box.height / 2];
          const over = document.elementFromPoint(...at)?.closest("[data-line]");
          return over === own ? [own.dataset.line] : [];
        })"""
    )
    assert len(free) > 10
    for number in free[:3]:
        opened.locator(f"g[data-line='{number}'] polyline").first.hover(force=True)
        assert opened.evaluate(LIT) == [f"TR{number}", f"g{number}"]


def test_every_halo_lies_round_its_number_in_the_drawing(opened: Page) -> None:
    astray = opened.evaluate(
        """() => {
          const middle = (e) => {
            const box = e.getBoundingClientRect();
            return [box.x + box.width / 2, box.y + box.height / 2, box.width / 2];
          };
          const texts = [...document.querySelectorAll(".drawing text")];
          return [...document.querySelectorAll(".glow circle")].filter((halo) => {
            const [x, y, radius] = middle(halo);
            const number = halo.parentElement.dataset.gap;
            return !texts.some((text) => {
              const [u, v] = middle(text);
              const same = text.textContent.trim() === number;
              return same && Math.hypot(u - x, v - y) < radius / 2;
            });
          }).length;
        }"""
    )
    said = made(NEWSROOM).page
    every = len(said.rows) + len(said.more)
    assert opened.locator(".glow circle").count() >= every
    assert astray == 0


def test_the_keyboard_goes_from_line_to_gap_and_back(opened: Page) -> None:
    opened.focus("tr[data-gap='1']")
    assert opened.evaluate(LIT) == ["TR1", "g1"]
    opened.keyboard.press("Enter")
    assert opened.evaluate(HERE) == "g1"
    opened.keyboard.press("Enter")
    assert opened.evaluate(HERE) == "TR1"
    opened.keyboard.press("Tab")
    assert opened.evaluate(HERE) == "TR2"


def test_a_line_whose_gap_is_on_a_further_sheet_brings_it_into_sight(
    opened: Page,
) -> None:
    opened.set_viewport_size({"width": 1200, "height": 500})
    last = made(NEWSROOM).page.more[-1].number
    within = f"""() => {{
      const [seen, gap] = [".drawings", ".glow[data-gap='{last}'] circle"].map(
        (each) => document.querySelector(each).getBoundingClientRect());
      const upright = gap.top >= seen.top && gap.bottom <= seen.bottom;
      return upright && gap.left >= seen.left && gap.right <= seen.right;
    }}"""
    assert not opened.evaluate(within)
    opened.click("summary")
    opened.focus(f"tr[data-gap='{last}']")
    assert opened.evaluate(LIT) == [f"TR{last}", f"g{last}"]
    assert opened.evaluate(within)


def test_the_keyboard_opens_the_further_lines_for_the_gap_of_one(
    opened: Page,
) -> None:
    last = made(NEWSROOM).page.more[-1].number
    opened.focus(f"g[data-gap='{last}']")
    opened.keyboard.press("Enter")
    assert opened.evaluate(HERE) == f"TR{last}"
    assert opened.evaluate("document.querySelector('details').open")


def test_nothing_is_wider_than_the_window(opened: Page) -> None:
    for width in (1600, 1000, 400):
        opened.set_viewport_size({"width": width, "height": 800})
        assert opened.evaluate("document.body.scrollWidth") <= width


def test_the_views_are_seen_whole_beside_the_words_and_their_text_on_demand(
    opened: Page,
) -> None:
    opened.set_viewport_size({"width": 1000, "height": 900})
    views = opened.locator(".views").first.bounding_box()
    words = opened.locator(".words").bounding_box()
    assert views is not None
    assert words is not None
    assert words["x"] + words["width"] <= views["x"]
    assert views["x"] + views["width"] <= 1000.0
    assert views["height"] < 900.0
    legend = opened.locator(".beside > svg").first
    assert not legend.is_visible()
    opened.click(".beside > summary")
    assert legend.is_visible()


def test_the_smallest_letters_are_read_on_every_screen(opened: Page) -> None:
    for width in (390, 900, 1280, 1920):
        opened.set_viewport_size({"width": width, "height": 800})
        heights = opened.evaluate(
            """() => [...document.querySelectorAll(".drawing text")].map(
              (text) => text.getBBox().height * text.getScreenCTM().d)"""
        )
        assert min(filter(None, heights)) > 7.5


def test_on_a_small_screen_the_drawing_is_large_and_moves_in_its_own_frame(
    opened: Page,
) -> None:
    opened.set_viewport_size({"width": 390, "height": 800})
    frame, sheet = (
        opened.locator(each).first.bounding_box()
        for each in (".drawing", ".views > svg")
    )
    assert frame is not None
    assert sheet is not None
    assert frame["width"] <= 390.0
    assert sheet["width"] > 900.0
    opened.locator("g[data-gap='1'] circle").first.hover()
    assert opened.evaluate(LIT) == ["TR1", "g1"]


PRINTED = ("archive", "mixing", "newsroom", "orchestra", "reporter")
"""Of one sheet, two and three; tight, short, clash and missing."""


@pytest.mark.parametrize(
    "path",
    [each for each in EXAMPLES if each.stem.removesuffix("-build") in PRINTED],
    ids=lambda path: path.stem,
)
def test_it_prints_on_one_or_two_pages_and_one_for_each_more_that_is_urgent(
    browser: Browser, tmp_path: Path, path: Path
) -> None:
    file = tmp_path / "page.html"
    one = made(path)
    file.write_text(one.html, "utf-8")
    page = browser.new_page()
    page.goto(file.as_uri())
    printed = page.pdf(prefer_css_page_size=True)
    page.close()
    urgent = one.html.count('<figure class="drawing">') - 1
    assert printed.count(b"/Type /Page\n") in {1 + urgent, 2 + urgent}
    lying = printed.count(b"/MediaBox [0 0 841.91998 594.95996]")
    assert lying == (0 if "drawings upright" in one.html else 1 + urgent)
