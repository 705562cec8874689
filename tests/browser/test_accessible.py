"""Every page in every light: nothing that the checker finds, nothing wider than the screen, nothing too small to touch."""

from __future__ import annotations

from typing import Any

import pytest

from tests.browser.conftest import DESK, PHONE
from tests.web.household import Household

PAGES = [
    "/due/",
    "/vehicles/",
    "/vehicles/Alder/",
    "/procedures/",
    "/procedures/engine-oil-spin-on/",
    "/workdays/",
    "/workdays/of/Alder/",
    "/workdays/card/CARD/",
    "/shelf/",
    "/daybook/",
    "/daybook/Alder/",
    "/daybook/Alder/enter/",
    "/daybook/Alder/level/",
    "/daybook/Alder/noticed/",
    "/start/",
    "/start/Alder/",
    "/settings/",
]
KINDS = [
    "/due/",
    "/vehicles/Alder/",
    "/workdays/of/Alder/",
    "/workdays/card/CARD/",
    "/daybook/Alder/",
    "/daybook/Alder/enter/",
    "/settings/",
]
"""A page of each kind: list with pictures, facts, prepared work, card, ledger with tables, form, choices."""
RUN = """async () => (await axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']}))
  .violations.map((one) => one.id + ': '
    + one.nodes.map((node) => node.target.join(' ') + ' ' + (node.any[0]?.message ?? '')).join(' | '))"""
SMALL = """() => [...document.querySelectorAll('button, input:not([type=hidden]), select, textarea, .button, nav a, summary')]
  .filter((part) => part.checkVisibility() && part.closest('.choices') === null)
  .filter((part) => { const box = part.getBoundingClientRect(); return box.height < 47.5 || box.width < 47.5; })
  .map((part) => part.outerHTML.slice(0, 120))"""
WIDER = "() => document.documentElement.scrollWidth > innerWidth"


def opened(page: Any, url: str, light: str) -> None:
    page.emulate_media(color_scheme="dark" if light == "dark" else "light", forced_colors="active" if light == "forced" else "none")
    page.goto(url)
    if light == "sun":
        page.evaluate("document.documentElement.dataset.sun = 'on'")
    if page.locator("job-card").count():
        page.wait_for_selector("job-card[data-ready=yes]")


def faults(page: Any, axe: str) -> list[str]:
    """Return what is wrong with the page as it stands, every disclosure open.

    The six words at the foot of a phone cover whatever happens to be scrolled beneath them; they are put at the page's end.
    """
    page.evaluate("document.querySelectorAll('details').forEach((part) => (part.open = true))")
    page.evaluate("document.querySelector('.about').style.position = 'static'")
    page.evaluate(axe)
    wider = [f"wider: {page.evaluate('document.documentElement.scrollWidth')}"] if page.evaluate(WIDER) else []
    return [*page.evaluate(RUN), *wider, *(f"small: {part}" for part in page.evaluate(SMALL))]


@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_every_page_is_accessible_in_light(size: dict[str, int], page: Any, live_server: Any, home: Household, axe: str) -> None:
    found = {}
    page.set_viewport_size(size)
    for path in PAGES:
        opened(page, live_server.url + path.replace("CARD", home.card), "light")
        found[path] = faults(page, axe)
    assert {path: told for path, told in found.items() if told} == {}


@pytest.mark.parametrize("light", ["dark", "sun", "forced"])
def test_a_page_of_each_kind_is_accessible_in_every_other_light(light: str, page: Any, live_server: Any, home: Household, axe: str) -> None:
    found = {}
    for path in KINDS:
        opened(page, live_server.url + path.replace("CARD", home.card), light)
        found[path] = faults(page, axe)
    assert {path: told for path, told in found.items() if told} == {}


def test_a_card_half_done_is_accessible_in_every_light(page: Any, live_server: Any, home: Household, axe: str) -> None:
    address = f"{live_server.url}/workdays/card/{home.card}/"
    opened(page, address, "light")
    for number in (1, 2):
        page.get_by_role("button", name=f"Done: step {number}", exact=True).click()
        page.wait_for_selector(f"#step-{number}[data-state=done]")
    found = {}
    for light in ("light", "dark", "sun", "forced"):
        opened(page, address, light)
        assert page.get_by_role("region", name="Where you were").is_visible()
        found[light] = faults(page, axe)
    assert {light: told for light, told in found.items() if told} == {}


def test_the_checker_sees_planted_faults(page: Any, live_server: Any, home: Household, axe: str) -> None:
    opened(page, f"{live_server.url}/due/", "light")
    page.evaluate(axe)
    page.evaluate("document.querySelector('main').innerHTML += '<img src=\"/static/look/logo.svg\"><button></button>'")
    told = page.evaluate(RUN)
    assert {one.split(":")[0] for one in told} >= {"image-alt", "button-name"}
    assert page.evaluate(SMALL)


def test_the_six_pages_open_by_their_keys_unless_switched_off(page: Any, live_server: Any, home: Household) -> None:
    page.goto(f"{live_server.url}/due/")
    page.keyboard.press("Alt+5")
    page.wait_for_url("**/shelf/")
    page.goto(f"{live_server.url}/settings/")
    page.get_by_role("radio", name="Off", exact=True).check()
    page.get_by_role("button", name="Keep these").click()
    page.keyboard.press("Alt+1")
    page.wait_for_timeout(200)
    assert page.url.endswith("/settings/")


def test_the_page_itself_is_one_key_away(page: Any, live_server: Any, home: Household) -> None:
    page.goto(f"{live_server.url}/due/")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "page"
