"""Take the pictures of docs/pictures from the demo household: `python3 start.py pictures`."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).resolve().parent / "pictures"
DAY = "2026-11-25"
PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 860}
CHROMIUM = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
READY = "job-card[data-ready=yes]"
MARK_UNTIL = """async (actions) => {
  const card = document.querySelector('job-card');
  for (const row of card.places()) {
    if (row.dataset.gate) await card.tick(row.dataset.gate, 'done', '');
    else if (actions.split(' ').includes(row.dataset.action)) return;
    else await card.tick(row.dataset.stepRow, 'done', '');
  }
}"""


def started_card(page: Any, address: str, vehicle: str) -> None:
    """Open the card of a vehicle's next work, starting it where it was not started yet."""
    page.goto(f"{address}/workdays/of/{vehicle}/")
    button = page.get_by_role("button", name="Start the workday")
    (button if button.count() else page.get_by_role("link", name="Open the card")).click()
    page.wait_for_selector(READY)


def due(page: Any, address: str) -> None:
    page.goto(f"{address}/due/")


def work(page: Any, address: str) -> None:
    page.goto(f"{address}/workdays/of/Alder/")


def card(page: Any, address: str, vehicle: str = "Rowan") -> None:
    started_card(page, address, vehicle)
    page.evaluate(MARK_UNTIL, "tighten")
    page.reload()
    page.wait_for_selector(READY)
    page.evaluate("scrollBy(0, -150)")


def one_step(page: Any, address: str, vehicle: str = "Rowan") -> None:
    started_card(page, address, vehicle)
    page.get_by_role("button", name="One step").click()
    page.evaluate(MARK_UNTIL, "tighten")
    page.get_by_role("button", name="All steps").click()
    page.get_by_role("button", name="One step").click()
    page.locator("[data-here]").evaluate("part => part.scrollIntoView()")


PICTURES: tuple[tuple[str, Callable[[Any, str], None], dict[str, int], str], ...] = (
    ("due-phone", due, PHONE, "light"),
    ("due-desk-dark", due, DESK, "dark"),
    ("work-desk", work, DESK, "light"),
    ("card-phone", card, PHONE, "light"),
    ("one-step-phone", one_step, PHONE, "light"),
)


@contextmanager
def served(home: Path) -> Iterator[str]:
    """Build the demo household in `home`, serve it on a free port, and hand out its address."""
    environment = {**os.environ, "TWOMARKS_HOME": str(home)}
    command = [sys.executable, "-m", "twomarks.app"]
    subprocess.run(
        [*command, "demo", "--home", str(home), "--on", DAY, "--no-serve"], env=environment, check=True, stdout=subprocess.DEVNULL
    )
    with socket.socket() as trying:
        trying.bind(("127.0.0.1", 0))
        port = trying.getsockname()[1]
    process = subprocess.Popen([*command, "serve", "--home", str(home), "--on", DAY, "--port", str(port)], env=environment)
    address = f"http://127.0.0.1:{port}"
    try:
        for _ in range(100):
            try:
                urllib.request.urlopen(f"{address}/due/", timeout=5).close()
                break
            except OSError:
                time.sleep(0.2)
        yield address
    finally:
        process.terminate()
        process.wait()


def main() -> None:
    """Take every picture."""
    from playwright.sync_api import sync_playwright

    chromium = next((place for place in map(shutil.which, CHROMIUM) if place), None)
    arguments = ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
    FOLDER.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, served(Path(folder)) as address, sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=chromium, args=arguments)
        for name, opened, size, tone in PICTURES:
            context = browser.new_context(
                viewport=size, color_scheme=tone, locale="en-GB", timezone_id="Europe/London", reduced_motion="reduce"
            )
            page = context.new_page()
            opened(page, address)
            page.evaluate("document.fonts.ready")
            page.wait_for_timeout(300)
            page.screenshot(path=FOLDER / f"{name}.png")
            context.close()
            print(FOLDER / f"{name}.png")
        browser.close()


if __name__ == "__main__":
    main()
