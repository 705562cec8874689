"""Write the pages of docs/reference from the program itself: `python3 start.py shell docs/make_reference.py [--check]`."""

from __future__ import annotations

import importlib
import pkgutil
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).resolve().parent / "reference"
MADE = "<!-- Made by docs/make_reference.py; change the program, not this page. -->\n"
SEEN = {
    "a": "an excerpt of the source itself was read",
    "a2": "read in a secondary copy only",
    "b": "computed, with a named library or by exact arithmetic",
    "c": "from memory only; never stands as a citation",
    "d": "derived here from values that carry their own letter",
}


def commands() -> str:
    """Return the page of the commands."""
    import click

    from twomarks.app.__main__ import APP_COMMANDS
    from twomarks.cli.group import lazy_group

    group = lazy_group(APP_COMMANDS)
    top = click.Context(group, info_name="twomarks")
    lines = ["# Commands", MADE, (group.help or "").strip(), "", f"{group.epilog}", ""] if group.epilog else ["# Commands", MADE]
    for path, command in _walk(group, top, ()):
        context = click.Context(command, info_name=" ".join(("twomarks", *path)))
        usage = " ".join([context.info_name or "", *command.collect_usage_pieces(context)])
        lines += [f"## {' '.join(path)}", "", _cleaned(command.help), "", f"    {usage}", ""]
        rows = [row for parameter in command.get_params(context) if (row := parameter.get_help_record(context)) is not None]
        if rows:
            lines += ["| option | does |", "|---|---|", *(f"| `{_cell(name)}` | {_cell(text)} |" for name, text in rows), ""]
    return "\n".join(lines).rstrip() + "\n"


def _walk(group: Any, context: Any, path: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], Any]]:
    for name in group.list_commands(context):
        command = group.get_command(context, name)
        if command is None or command.hidden:
            continue
        yield (*path, name), command
        if hasattr(command, "list_commands"):
            yield from _walk(command, context, (*path, name))


def _cleaned(text: str | None) -> str:
    import inspect

    return inspect.cleandoc(text or "").replace("\b\n", "")


def _cell(text: str) -> str:
    return " ".join(text.split()).replace("|", "\\|")


def answers() -> str:
    """Return the page of the JSON answers."""
    from twomarks.exchange import answers as room
    from twomarks.exchange.answers.said import Answer

    for module in pkgutil.iter_modules(room.__path__, room.__name__ + "."):
        importlib.import_module(module.name)
    lines = [
        "# Answers",
        MADE,
        "What `--json` prints. Keys end in their unit. A format only gains keys; the number at its end changes when anything else does.",
        "",
    ]
    parts: dict[str, dict[str, Any]] = {}
    for kind in sorted(_below(Answer), key=lambda kind: kind.__name__):
        schema = kind.model_json_schema(mode="serialization")
        parts |= schema.get("$defs", {})
        lines += [f"## `{schema['properties']['format'].get('const', '')}`", "", schema.get("description", ""), "", *_keys(schema), ""]
    lines += ["# Parts of answers", ""]
    for name in sorted(parts):
        if "properties" in parts[name]:
            lines += [f"## {name}", "", " ".join(parts[name].get("description", "").split()), "", *_keys(parts[name]), ""]
    return "\n".join(lines).rstrip() + "\n"


def _below(kind: type) -> list[type]:
    return [found for child in kind.__subclasses__() for found in (child, *_below(child))]


def _keys(schema: dict[str, Any]) -> list[str]:
    needed = set(schema.get("required", ()))
    rows = [
        f"| `{name}` | {_cell(_type(value))} | {'' if name in needed else 'may be left out'} | {_cell(value.get('description', ''))} |"
        for name, value in schema["properties"].items()
    ]
    return ["| key | is | | means |", "|---|---|---|---|", *rows]


def _type(value: dict[str, Any]) -> str:
    if "$ref" in value:
        return str(value["$ref"]).rsplit("/", 1)[-1]
    if "const" in value:
        return f"`{value['const']}`"
    if "enum" in value:
        return ", ".join(f"`{word}`" for word in value["enum"])
    if "anyOf" in value:
        return " or ".join(_type(choice) for choice in value["anyOf"])
    if value.get("type") == "array":
        inner = value.get("items") or next(iter(value.get("prefixItems", ())), {})
        return f"list of {_type(inner)}" if inner else "list"
    return str(value.get("format") or value.get("type") or "anything")


def sources() -> str:
    """Return the page of the bibliography."""
    from twomarks.reference.bibliography import references

    lines = ["# Sources", MADE, "Where the figures of the engineering come from, and how far each source was seen.", ""]
    lines += ["| seen | means |", "|---|---|", *(f"| {letter} | {words} |" for letter, words in SEEN.items()), ""]
    lines += ["| key | source | for | seen |", "|---|---|---|---|"]
    lines += [f"| `{entry.key}` | {_cell(entry.title)} | {_cell(entry.what)} | {entry.status} |" for entry in references().values()]
    return "\n".join(lines) + "\n"


def rules() -> str:
    """Return the page of the rules of the rehearsal, by what they are about."""
    from itertools import groupby

    from twomarks.procedures.rules import RULES
    from twomarks.words import Reader, render, say

    reader = Reader.of("uk")
    lines = [
        "# Rules of the rehearsal",
        MADE,
        f"A rehearsal looks at {len(RULES)} rules. The grade says what is at stake where one does not hold: `harm` (a person can be hurt),",
        "`damage` (the vehicle can), `omission` (costs doing it again), `advice`. A rule that protects keeps its grade also where a",
        "procedure merely does not say that it holds. The source is a key of [the sources](sources.md).",
        "",
    ]
    for family, found in groupby(sorted(RULES, key=lambda rule: rule.family), key=lambda rule: rule.family):
        title = say("rehearsal.family_" + family.replace(" ", "_"))
        lines += [f"## {render(title, reader)}", ""]
        lines += ["| rule | name | why | what to do | grade | source |", "|---|---|---|---|---|---|"]
        for rule in found:
            grade = f"{rule.grade}, protects" if rule.protects else rule.grade
            said = [_cell(render(part, reader)) for part in (rule.name, rule.why, say(f"rule.{rule.id}_remedy"))]
            lines.append(f"| `{rule.id}` | {' | '.join(said)} | {grade} | `{rule.source}` |")
        lines.append("")
    return "\n".join(lines).rstrip() + "\n"


def calculations() -> str:
    """Return the page of the calculations that `reckon` knows."""
    from twomarks.cli.reckon import quoted
    from twomarks.cli.reckonings.names import NAMES, asks_key, calculation, line_key
    from twomarks.words import Reader, render, say

    reader = Reader.of("uk")
    lines = [
        "# Calculations",
        MADE,
        "Asked by name: `twomarks reckon NAME key=value ...`. Values carry their units; the answer carries its sources, and with `--json`",
        "its figures under keys that end in their unit. The same functions stand in `twomarks.trade` ([the engineering](engineering.md)).",
        "",
    ]
    for name in NAMES:
        asked = calculation(name).asked
        words = " ".join(map(quoted, calculation(name).example_words))
        lines += [f"## {name}", "", render(say(line_key(name)), reader), "", f"    twomarks reckon {name} {words}", ""]
        lines += ["| key | means | is | left out |", "|---|---|---|---|"]
        for one in asked:
            kind = ", ".join(f"`{choice}`" for choice in one.choices) or one.kind
            left_out = one.default or ("needed" if one.needed else "may be left out")
            told = f"{render(say(asks_key(name, one.key)), reader)}{'; several times' if one.many else ''}"
            lines.append(f"| `{one.key}` | {_cell(told)} | {kind} | {_cell(left_out)} |")
        lines.append("")
    return "\n".join(lines).rstrip() + "\n"


def engineering() -> str:
    """Return the page of the engineering: every public function of `twomarks.trade`, for use from a notebook."""
    import ast
    import inspect

    import twomarks.trade

    lines = [
        "# The engineering",
        MADE,
        "Pure functions with keyword arguments that end in their unit. They need no web package and no database; where a function takes",
        "arrays, a number answers with a number and a NumPy array with an array. `help(function)` shows ranges, errors and equations.",
        "",
        "    from twomarks.trade.viscosity import walther_line",
        "    line = walther_line(kv_low_mm2_s=73.3, temp_low_c=40.0, kv_high_mm2_s=8.86, temp_high_c=100.0)",
        "    line.kinematic_viscosity(temp_c=20.0)   # 241 mm2/s",
        "",
    ]
    for found in sorted(pkgutil.iter_modules(twomarks.trade.__path__), key=lambda module: module.name):
        module = importlib.import_module(f"twomarks.trade.{found.name}")
        tree = ast.parse(inspect.getsource(module))
        functions = [node for node in tree.body if isinstance(node, ast.FunctionDef) and node.name in module.__all__]
        if not functions or found.name == "arrays":
            continue
        lines += [
            f"## twomarks.trade.{found.name}",
            "",
            _first_line(module.__doc__),
            "",
            "| function | answers | sources |",
            "|---|---|---|",
        ]
        for function in functions:
            docstring = ast.get_docstring(function) or ""
            cited = [key.strip() for key in docstring.partition("References\n----------\n")[2].replace("\n", ",").split(",") if key.strip()]
            names = ", ".join(argument.arg for argument in (*function.args.args, *function.args.kwonlyargs))
            lines.append(f"| `{function.name}({names})` | {_cell(_first_line(docstring))} | {', '.join(f'`{key}`' for key in cited)} |")
        lines.append("")
    return "\n".join(lines).rstrip() + "\n"


def _first_line(text: str | None) -> str:
    return (text or "").strip().partition("\n\n")[0].replace("\n", " ")


PAGES = {
    "answers.md": answers,
    "calculations.md": calculations,
    "commands.md": commands,
    "engineering.md": engineering,
    "rules.md": rules,
    "sources.md": sources,
}


def main(words: list[str]) -> int:
    """Write the pages, or with --check say which are not up to date."""
    stale = []
    for name, make in PAGES.items():
        path, text = FOLDER / name, make()
        if not path.exists() or path.read_text("utf-8") != text:
            stale.append(name)
            if "--check" not in words:
                FOLDER.mkdir(exist_ok=True)
                path.write_text(text, "utf-8")
    if "--check" in words and stale:
        print(f"Not up to date: {', '.join(stale)}. Run: python3 start.py shell docs/make_reference.py")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
