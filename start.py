#!/usr/bin/env python3
"""Set Twomarks up in a folder of its own and run it.

  python3 start.py demo                    build the invented household, do the main job, serve the pages
  python3 start.py test                    every check and every test
  python3 start.py test --reference        the same, with the comparisons against reference libraries
  python3 start.py test --long             the same, with the full counts of the long suites
  python3 start.py test tests/model -k x   these tests alone; everything after "test" goes to pytest
  python3 start.py bench [NAME]            the benches, or one of them
  python3 start.py pictures                the pictures of the README, taken from the demo household
  python3 start.py shell [FILE]            Python with Twomarks in it
  python3 start.py COMMAND ...             any command of twomarks: due, prepare, enter, --help ...

Everything is kept in .twomarks/ beside this file (in the folder that TWOMARKS_PLACE names, if it is set; in your cache
folder, if neither can be written). Deleting that folder undoes the set-up; your own data does not lie in it.
"""

# Standard library only. The syntax stays readable for Python 3.6, so that an old Python is told so in words.
import contextlib
import hashlib
import itertools
import os
import shutil
import subprocess
import sys
import sysconfig
import tempfile
import time

OLDEST = (3, 11)
ROOT = os.path.dirname(os.path.realpath(__file__))
SETS = {"run": ("lock/run.txt", 460, 27), "dev": ("lock/dev.txt", 1500, 68)}  # lock file, MB needed, packages
REFERENCE = ("lock/reference.txt", 1200, 97)
WEEK_S = 7 * 86400
WINDOWS = os.name == "nt"
DROP = (
    "PYTHONHOME",
    "PYTHONPATH",
    "VIRTUAL_ENV",
    "__PYVENV_LAUNCHER__",
    "PYTHONDONTWRITEBYTECODE",
    "PIP_USER",
    "PIP_TARGET",
    "PIP_PREFIX",
    "PIP_ROOT",
    "PIP_REQUIRE_VIRTUALENV",
)
CLEAN = {name: value for name, value in os.environ.items() if name not in DROP}
UNREACHABLE = (
    "NewConnectionError",
    "NameResolutionError",
    "Temporary failure in name resolution",
    "getaddrinfo",
    "ConnectTimeout",
    "Connection refused",
    "Network is unreachable",
    "ProxyError",
)
WHY = (  # words in pip's output -> what to tell a person; connection words first, since pip then also finds "no distribution"
    (
        ("No space left on device", "Errno 28", "WinError 112"),
        "The disk is full. Free some space, or point TWOMARKS_PLACE at a folder on another disk.",
    ),
    (
        ("DO NOT MATCH THE HASHES",),
        "A downloaded package differs from the one we locked. Nothing was installed from it. Run again; if it stays, tell us.",
    ),
    (
        ("CERTIFICATE_VERIFY_FAILED",),
        "The package index's certificate was not accepted: a proxy may be in between (set PIP_CERT to its certificate).",
    ),
    (
        UNREACHABLE,
        "The package index could not be reached. Setting up needs the network once; check it (or your proxy) and run this again.",
    ),
    (("no such option: --require-hashes", "no such option: --python"), "This Python's pip is too old; pip 23.0 or newer is needed."),
    (
        ("No matching distribution",),
        "A locked package has no build for this system and Python. Python 3.11 to 3.14, 64-bit, are the ones we lock for.",
    ),
)
CHROMIUMS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
CHROMIUM_PLACES = (
    "/usr/bin/chromium",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    os.path.join(os.environ.get("PROGRAMFILES", ""), "Google", "Chrome", "Application", "chrome.exe"),
)


def tell(words):
    sys.stderr.write(words + "\n")
    sys.stderr.flush()


def stop(words, detail=""):
    tell("start.py: " + words + ("\n\n" + detail if detail else ""))
    raise SystemExit(2)


def kept():
    """Return the folder that everything goes into and whether other checkouts may use it too."""
    cache = os.environ.get("LOCALAPPDATA") or os.environ.get("XDG_CACHE_HOME") or os.path.join(os.path.expanduser("~"), ".cache")
    named = os.environ.get("TWOMARKS_PLACE")
    own = os.path.join(cache, "twomarks-place", hashlib.sha256(ROOT.encode()).hexdigest()[:8])
    places = [os.path.expanduser(named)] if named else [os.path.join(ROOT, ".twomarks"), own]
    for place in places:
        with contextlib.suppress(OSError):
            os.makedirs(place, exist_ok=True)
            with tempfile.TemporaryFile(dir=place):
                return os.path.abspath(place), bool(named)
    return stop("Cannot write to %s. Set TWOMARKS_PLACE to a folder that can be written." % " nor to ".join(places))


def key(lock):
    """Return what an environment depends on (the lock, this script, which Python) as ten hex digits: short paths suit Windows."""
    base = os.path.realpath(getattr(sys, "_base_executable", None) or sys.executable)
    parts = [base.encode(), sys.version.encode(), sysconfig.get_platform().encode()]
    for name in (lock, "start.py"):
        with open(os.path.join(ROOT, name), "rb") as file:
            parts.append(file.read().replace(b"\r\n", b"\n"))
    return hashlib.sha256(b"\0".join(parts)).hexdigest()[:10]


@contextlib.contextmanager
def alone(path):
    """Hold a lock that the system gives back when this process and the pip it started have both ended."""
    with open(path, "a+") as file:
        os.set_inheritable(file.fileno(), True)
        for attempt in itertools.count():
            try:
                if WINDOWS:
                    import msvcrt

                    msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
                else:
                    import fcntl

                    fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
                break
            except OSError:
                if not attempt:
                    tell("Another start.py is setting up here; waiting for it.")
                time.sleep(0.3)
        yield


def call(command, log, packages=0):
    """Run `command` with its output in `log`, counting packages on a terminal; return its exit code."""
    seen = 0
    env = dict(CLEAN, PIP_DISABLE_PIP_VERSION_CHECK="1", PIP_NO_INPUT="1", PYTHONUNBUFFERED="1", TMPDIR=os.path.dirname(log.name))
    child = subprocess.Popen(
        command,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        env=env,
        cwd=ROOT,
        close_fds=WINDOWS,
        encoding="utf-8",
        errors="replace",
    )
    for line in child.stdout:
        log.write(line)
        seen += line.startswith(("Collecting ", "Requirement already satisfied"))
        if packages and sys.stderr.isatty():
            sys.stderr.write("\r  %d of about %d packages " % (min(seen, packages), packages))
    if seen and packages and sys.stderr.isatty():
        sys.stderr.write("\n")
    return child.wait()


def fail(log, words):
    log.flush()
    with open(log.name, encoding="utf-8", errors="replace") as file:
        text = file.read()
    told = [say for marks, say in WHY if any(mark in text for mark in marks)]
    stop(" ".join([words] + told[:1]), "Last lines of %s:\n" % log.name + "\n".join(text.splitlines()[-6:]))


def room_on_disk(folder, needed_mb):
    if shutil.disk_usage(folder).free < needed_mb * 1000000:
        stop("About %d MB are needed in %s and less is free. Set TWOMARKS_PLACE to a folder on another disk." % (needed_mb, folder))


def sweep(folder, which, keep, shared):
    """Remove environments of earlier locks; where other checkouts set up too, only those that nobody started for a week."""
    for name in os.listdir(folder):
        path = os.path.join(folder, name)
        if not name.startswith(which + "-") or path == keep or not os.path.isdir(path):
            continue
        mark = os.path.join(path, "ready")
        if not shared or not os.path.exists(mark) or time.time() - os.path.getmtime(mark) > WEEK_S:
            shutil.rmtree(path, ignore_errors=True)


def install(pip, lock, log, packages):
    options = ["install", "--require-hashes", "--no-deps", "--only-binary", ":all:", "--progress-bar", "off", "--retries", "2"]
    if call(pip + options + ["-r", os.path.join(ROOT, lock)], log, packages):
        fail(log, "Installing the packages failed.")


def environment(which, reference=False):
    """Return the Python of the environment `which`, setting it up first where it is missing."""
    lock, needed_mb, packages = SETS[which]
    folder, shared = kept()
    place = os.path.join(folder, which + "-" + key(lock))
    python = os.path.join(place, "Scripts" if WINDOWS else "bin", "python.exe" if WINDOWS else "python")
    ready = os.path.join(place, "ready")
    with_reference = os.path.join(place, "ready-" + key(REFERENCE[0]))

    def is_ready():
        return os.path.exists(ready) and (not reference or os.path.exists(with_reference))

    if not is_ready():
        with alone(os.path.join(folder, which + ".lock")), open(os.path.join(folder, which + ".log"), "a+", encoding="utf-8") as log:
            if not os.path.exists(ready):
                log.truncate(0)
                room_on_disk(folder, needed_mb)
                tell("Setting up in %s (once; about %d MB on disk) ..." % (place, needed_mb * 2 // 3))
                sweep(folder, which, place, shared)
                pip = [python, "-m", "pip"]
                if call([sys.executable, "-m", "venv", "--clear", place], log):  # no python3-venv: a pip outside can still fill it
                    pip = [sys.executable, "-m", "pip", "--python", python]
                    if call([sys.executable, "-m", "venv", "--clear", "--without-pip", place], log) or call(pip + ["--version"], log):
                        fail(log, "Python could not make a virtual environment. On Debian and Ubuntu: apt install python3-venv")
                install(pip, lock, log, packages)
                open(ready, "w").close()  # last: a set-up cut short has no such file, and is begun again
            if reference and not os.path.exists(with_reference):
                room_on_disk(folder, REFERENCE[1])
                tell("Adding the reference libraries (once; about %d MB on disk) ..." % (REFERENCE[1] * 2 // 3))
                pip = [python, "-m", "pip"]
                if call(pip + ["--version"], log):
                    pip = [sys.executable, "-m", "pip", "--python", python]
                install(pip, REFERENCE[0], log, REFERENCE[2])
                open(with_reference, "w").close()
    with contextlib.suppress(OSError):
        os.utime(ready, None)
    return python


def chromium():
    """Return the path of a Chromium for the browser tests ("" where there is none), fetching it on Debian as root."""
    named = os.environ.get("TWOMARKS_CHROMIUM")
    if named is not None:
        return named if os.path.exists(named) else ""

    def found():
        places = [shutil.which(name) for name in CHROMIUMS] + [place for place in CHROMIUM_PLACES if os.path.exists(place)]
        return next((place for place in places if place), "")

    if not found() and os.path.exists("/etc/debian_version") and shutil.which("apt-get") and os.geteuid() == 0:
        tell("Fetching chromium from the system's packages for the browser tests ...")
        env = dict(CLEAN, DEBIAN_FRONTEND="noninteractive")
        for command in (["apt-get", "-q", "update"], ["apt-get", "install", "-qy", "--no-install-recommends", "chromium"]):
            if subprocess.call(command, env=env, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL):
                tell("That failed: %s" % " ".join(command))
                break
    if not found():
        tell(
            "No Chromium here: the browser tests are SKIPPED. To run them: install Chromium (Debian: apt install chromium)\n"
            "or set TWOMARKS_CHROMIUM to the program's path."
        )
    return found()


def tested(words):
    """Set up, then run the checks and the tests (or, with words for pytest, those tests alone); return the exit code."""
    reference, long = "--reference" in words, "--long" in words
    rest = [word for word in words if word not in ("--reference", "--long")]
    python = environment("dev", reference=reference)
    env = dict(running_env(), TWOMARKS_CHROMIUM=chromium(), TWOMARKS_HOME=os.path.join(os.path.dirname(os.path.dirname(python)), "no-home"))
    env.update({"TWOMARKS_REFERENCE": "1"} if reference else {}, **({"TWOMARKS_LONG": "1"} if long else {}))
    if rest:
        return run([python, "-m", "pytest"] + rest, env)
    tools = os.path.dirname(python)
    failed = []
    for name, command in (
        ("ruff check", [python, "-m", "ruff", "check"]),
        ("ruff format", [python, "-m", "ruff", "format", "--check"]),
        ("mypy", [python, "-m", "mypy"]),
        ("import contracts", [os.path.join(tools, "lint-imports"), "--no-cache"]),
        ("tests", [python, "-m", "pytest", "-n", "2", "-q"]),
    ):
        began = time.time()
        tell("== %s" % name)
        if failed and name == "tests":
            tell("   (already red: %s; the tests run all the same)" % ", ".join(failed))
        code = run(command, env)
        if name != "tests":
            tell("== %s: %s, %.0f s" % (name, "FAILED" if code else "clean", time.time() - began))
        if code:
            failed.append(name)
    if [name for name in failed if name != "tests"]:
        tell("FAILED: %s" % ", ".join(failed))
    return 1 if failed else 0


def running_env(*more):
    return dict(CLEAN, PYTHONPATH=os.pathsep.join((os.path.join(ROOT, "src"),) + more), PYTHONNOUSERSITE="1", PYTHONSAFEPATH="1")


def run(command, env):
    """Run `command` in the checkout and return its exit code."""
    sys.stdout.flush()
    try:
        return subprocess.call(command, env=env, cwd=ROOT)
    except KeyboardInterrupt:
        return 130


def become(command, env):
    """Turn into `command`, where the system can do that; it keeps the folder in which the person stands."""
    sys.stdout.flush()
    if not WINDOWS:
        os.execve(command[0], command, env)
    try:
        return subprocess.call(command, env=env)  # os.exec on Windows returns to the prompt before the program ends
    except KeyboardInterrupt:
        return 130


def main(words):
    if sys.version_info < OLDEST:
        stop(
            "Twomarks needs Python %d.%d or newer; this is %s (%s). Try: python3.12 start.py"
            % (OLDEST + (sys.version.split()[0], sys.executable))
        )
    if not words or words[0] in ("-h", "--help"):
        print(__doc__)
        return 0
    if words[0] == "test":
        return tested(words[1:])
    if words[0] in ("bench", "pictures"):
        python = environment("dev", reference=False)
        what = ["-m", "benchmarks"] + words[1:] if words[0] == "bench" else [os.path.join(ROOT, "docs", "make_pictures.py")]
        return run([python] + what, running_env(ROOT))
    python = environment("run")
    if words[0] == "shell":
        return become([python] + words[1:], running_env())
    return become([python, "-m", "twomarks.app"] + words, running_env())


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except KeyboardInterrupt:
        tell("\nStopped. Nothing half-made is used: run it again.")
        sys.exit(130)
