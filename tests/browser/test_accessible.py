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
    "/start/",
    "/start/Alder/",
    "/settings/",
]
LIGHTS = ("light", "dark", "sun", "forced")
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


@pytest.mark.parametrize("path", PAGES)
def test_a_page_is_accessible_in_every_light_at_both_sizes(path: str, page: Any, live_server: Any, home: Household, axe: str) -> None:
    found: dict[str, Any] = {}
    for size, lights in ((PHONE, LIGHTS), (DESK, LIGHTS[:1])):
        page.set_viewport_size(size)
        for light in lights:
            opened(page, live_server.url + path.replace("CARD", home.card), light)
            page.evaluate(axe)
            name = f"{size['width']} {light}"
            if told := page.evaluate(RUN):
                found[name] = told
            if page.evaluate(WIDER):
                found[f"{name} wider"] = page.evaluate("document.documentElement.scrollWidth")
            if small := page.evaluate(SMALL):
                found[f"{name} small"] = small
    assert found == {}


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
