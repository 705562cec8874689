"""How long a page takes inside the server, against a page of the bare framework that says one word."""

from __future__ import annotations

import json
import os
import statistics
import subprocess
import sys
import tempfile
import time

from benchmarks.cold_start import ON
from benchmarks.evidence import write
from benchmarks.reference_load import at_reference_ms, load_ms

REQUESTS = 60
PAGES = {"due": "/due/", "procedures": "/procedures/", "shelf": "/shelf/"}


def main() -> None:
    """Time pages of the demo household and the bare page, each in a process of its own, print ratios, write the evidence."""
    with tempfile.TemporaryDirectory() as home:
        env = {**os.environ, "TWOMARKS_HOME": home, "TWOMARKS_ON": ON}
        subprocess.run(
            [sys.executable, "-m", "twomarks.app", "demo", "--no-serve", "--home", home, "--on", ON],
            check=True,
            capture_output=True,
            env=env,
        )
        bare = _timed("bare", "/", env)
        pages = {name: _timed("ours", path, env) for name, path in PAGES.items()}
    here_ms = load_ms()
    print(f"   bare page: {bare['ms']:.2f} ms; the reference load takes {here_ms:.0f} ms here")
    result: dict[str, object] = {"load_ms": round(here_ms, 1), "bare_ms": round(bare["ms"], 3)}
    for name, timed in pages.items():
        ratio = timed["ms"] / bare["ms"]
        print(f"   {name}: {timed['ms']:.2f} ms, {ratio:.1f} x the bare page, {timed['bytes']:.0f} bytes")
        result[name.replace(" ", "_")] = {
            "ms": round(timed["ms"], 2),
            "at_reference_ms": round(at_reference_ms(timed["ms"], load_here_ms=here_ms), 2),
            "times_bare": round(ratio, 1),
            "bytes": int(timed["bytes"]),
        }
    write("page", result, counts={"requests": REQUESTS})


def _timed(which: str, path: str, env: dict[str, str]) -> dict[str, float]:
    done = subprocess.run([sys.executable, "-m", "benchmarks.page", which, path], capture_output=True, text=True, check=False, env=env)
    if done.returncode:
        raise RuntimeError(done.stderr.strip().splitlines()[-1])
    answer: dict[str, float] = json.loads(done.stdout)
    return answer


def _ask(which: str, path: str) -> dict[str, float]:
    if which == "bare":
        _set_up_bare()
    else:
        import django

        os.environ["DJANGO_SETTINGS_MODULE"] = "twomarks.app.settings.full"
        django.setup()
    from django.test import Client

    client = Client(headers={"host": "localhost"})
    for _ in range(3):
        answer = client.get(path, follow=True)
    if answer.status_code != 200:
        raise SystemExit(f"{path} answered {answer.status_code}")
    times = []
    for _ in range(REQUESTS):
        began = time.perf_counter()
        answer = client.get(path)
        times.append(time.perf_counter() - began)
    return {"ms": 1000.0 * statistics.median(times), "bytes": float(len(answer.content))}


def _set_up_bare() -> None:
    import types

    import django
    from django.conf import settings
    from django.http import HttpRequest, HttpResponse
    from django.urls import path

    def page(_: HttpRequest) -> HttpResponse:
        return HttpResponse("<!doctype html><title>Bare</title><p>Bare")

    urls = types.ModuleType("bare_urls")
    urls.urlpatterns = [path("", page)]  # type: ignore[attr-defined]
    sys.modules["bare_urls"] = urls
    settings.configure(ROOT_URLCONF="bare_urls", ALLOWED_HOSTS=["localhost"], SECRET_KEY="bare", MIDDLEWARE=[], INSTALLED_APPS=[])
    django.setup()


if __name__ == "__main__":
    print(json.dumps(_ask(sys.argv[1], sys.argv[2])))
