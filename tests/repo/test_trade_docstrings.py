"""The docstrings of the engineering are contracts: names, units and sources are held to the signature."""

from __future__ import annotations

import ast
import re
import tomllib
from functools import cache

import pytest

from tests.repo.ground import SOURCE, modules, shown, tree_of

UNITS = {
    "_mm2_s": {"mm2/s", "mm²/s"},
    "_mpa_s": {"mPa.s", "mPa·s", "mPa s"},
    "_kg_m3": {"kg/m3", "kg/m³"},
    "_m_s2": {"m/s2", "m/s²"},
    "_per_c": {"1/C", "1/°C", "per C"},
    "_nm": {"N.m", "N·m"},
    "_kpa": {"kPa"},
    "_mpa": {"MPa"},
    "_bar": {"bar"},
    "_km": {"km"},
    "_mm2": {"mm2", "mm²"},
    "_mm": {"mm"},
    "_cm": {"cm"},
    "_m2": {"m2", "m²"},
    "_um": {"um", "µm", "μm"},
    "_m": {"m"},
    "_ml": {"mL"},
    "_l": {"L"},
    "_c": {"C", "°C"},
    "_deg": {"deg", "degrees", "°"},
    "_days": {"days"},
    "_years": {"years"},
    "_min": {"min"},
    "_h": {"h"},
    "_s": {"s"},
    "_kg": {"kg"},
    "_g": {"g"},
    "_v": {"V"},
    "_percent": {"%", "percent"},
}
NO_FIGURES = {"arrays"}
"""Modules that reckon nothing themselves: how numbers and arrays are told apart and refused."""
NUMBER = re.compile(r"float|int|float \| None|int \| None")
NUMERIC = re.compile(r"\b(?:float|int|Real|Reals|NDArray)\b")
FINDINGS = "findings : Findings"
"""Judges that add to the findings of a verdict get figures that the verdict has checked."""
RANGE = re.compile(
    r"\b(?:above|below|at least|at most|up to|from|between|not negative|positive|any|rising|whole|none?)\b|\d\s?(?:to|\.\.)\s?-?\d|\d",
    re.IGNORECASE,
)
SECTION = re.compile(r"^([A-Z][A-Za-z ]+)\n-{3,}$", re.MULTILINE)
PARAMETER = re.compile(r"^(\*{0,2}[a-z_][\w, *]*?)(?: : (.*))?$")
UNIT = re.compile(r"\[([^\]]+)\]")
CITATION = re.compile(r"^[-.\s\[\]\d]*([a-z][a-z0-9_]*)\b", re.MULTILINE)


@cache
def sources() -> frozenset[str]:
    return frozenset(tomllib.loads((SOURCE / "reference" / "sources.toml").read_text("utf-8")))


def sections(docstring: str) -> dict[str, str]:
    """Return the sections of a numpydoc docstring by title; the opening sentence stands under ""."""
    parts = SECTION.split(docstring)
    return {"": parts[0].strip()} | {title: body.strip("\n") for title, body in zip(parts[1::2], parts[2::2], strict=True)}


def described(body: str) -> dict[str, str]:
    """Return name -> type and description of the entries of a Parameters section."""
    entries: dict[str, str] = {}
    names: list[str] = []
    for line in body.splitlines():
        if line and not line[0].isspace():
            match = PARAMETER.match(line)
            names = [name.strip().lstrip("*") for name in match[1].split(",")] if match else []
            for name in names:
                entries[name] = (match[2] or "") if match else ""
        else:
            for name in names:
                entries[name] += " " + line.strip()
    return entries


def unit_of(name: str) -> set[str] | None:
    """Return the units that the ending of `name` stands for, or None where it has none."""
    return next((units for ending, units in sorted(UNITS.items(), key=lambda item: -len(item[0])) if name.endswith(ending)), None)


def faults(function: ast.FunctionDef, known: frozenset[str]) -> list[str]:
    """Return what is wrong with the docstring of one public function."""
    docstring = ast.get_docstring(function)
    if not docstring:
        return ["has no docstring"]
    found = sections(docstring)
    wrong = [] if found[""] else ["does not say what comes back"]
    arguments = [*function.args.posonlyargs, *function.args.args, *function.args.kwonlyargs]
    if function.args.vararg is not None:
        arguments.insert(len(function.args.posonlyargs) + len(function.args.args), function.args.vararg)
    arguments = [argument for argument in arguments if argument.arg not in ("self", "cls")]
    entries = described(found.get("Parameters", ""))
    if list(entries) != [argument.arg for argument in arguments]:
        wrong.append(f"Parameters are {list(entries)}, the signature has {[argument.arg for argument in arguments]}")
    for argument in arguments:
        units = unit_of(argument.arg)
        written = UNIT.search(entries.get(argument.arg, ""))
        if units and argument.arg in entries and (written is None or written[1] not in units):
            wrong.append(f"{argument.arg}: unit [{written[1] if written else ''}] is not one of {sorted(units)}")
        annotation = ast.unparse(argument.annotation) if argument.annotation else ""
        if NUMBER.fullmatch(annotation) and argument in function.args.args + function.args.posonlyargs:
            wrong.append(f"{argument.arg}: a number that is not keyword-only")
        if NUMERIC.search(annotation) and argument.arg in entries:
            if written is None:
                wrong.append(f"{argument.arg}: no unit in brackets ([-] for a bare number)")
            if not RANGE.search(UNIT.split(entries[argument.arg], maxsplit=1)[-1]):
                wrong.append(f"{argument.arg}: does not say in which range it is valid")
    returned = ast.unparse(function.returns) if function.returns is not None else "None"
    if returned != "None" and "Returns" not in found:
        wrong.append("has no Returns")
    elif NUMERIC.search(returned) and not UNIT.search(found["Returns"]):
        wrong.append("Returns: no unit in brackets ([-] for a bare number)")
    numbers = [argument for argument in arguments if argument.annotation and NUMERIC.search(ast.unparse(argument.annotation))]
    checked = [argument for argument in numbers if "any finite number" not in entries.get(argument.arg, "")]
    if checked and FINDINGS not in docstring and "Raises" not in found:
        wrong.append("takes numbers and has no Raises")
    if not CITATION.findall(found.get("References", "")):
        wrong.append("has no References")
    wrong += [f"cites {key}, which is not in the bibliography" for key in CITATION.findall(found.get("References", "")) if key not in known]
    return wrong


def public(tree: ast.Module) -> list[ast.FunctionDef]:
    """Return the public functions of a module, and the public methods of its public classes."""
    classes = [node for node in tree.body if isinstance(node, ast.ClassDef) and not node.name.startswith("_")]
    bodies = [tree.body, *(node.body for node in classes)]
    return [
        node
        for body in bodies
        for node in body
        if isinstance(node, ast.FunctionDef)
        and not node.name.startswith("_")
        and not any(isinstance(decorator, ast.Name) and decorator.id == "property" for decorator in node.decorator_list)
    ]


def test_every_docstring_of_the_engineering_agrees_with_its_function() -> None:
    told = [
        f"{shown(path)}:{function.lineno}: {function.name}: {what}"
        for path in modules("trade")
        if path.stem not in NO_FIGURES
        for function in public(tree_of(path))
        for what in faults(function, sources())
    ]
    assert not told, "\n".join(told)


def test_there_is_engineering_to_hold() -> None:
    assert sum(len(public(tree_of(path))) for path in modules("trade")) > 10


GOOD = '''
def kinematic(*, kv40_mm2_s: float, temp_c: float, name: str = "") -> float:
    """Return the viscosity at a temperature.

    Parameters
    ----------
    kv40_mm2_s : float
        Viscosity at 40 C [mm2/s], above 2.
    temp_c : float
        Temperature [C], -40 to 150.
    name : str
        What the oil is called.

    Returns
    -------
    float
        Viscosity [mm2/s].

    Raises
    ------
    OutOfRangeError
        If the temperature is outside its range.

    References
    ----------
    astm_d341
    """
'''


def judged(text: str) -> list[str]:
    function = ast.parse(text).body[0]
    assert isinstance(function, ast.FunctionDef)
    return faults(function, frozenset({"astm_d341"}))


def test_a_good_docstring_is_left_alone() -> None:
    assert judged(GOOD) == []


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("Temperature [C]", "Temperature [K]"),
        ("Temperature [C]", "Temperature"),
        ("temp_c : float", "temperature_c : float"),
        ("    astm_d341\n", "    astm_d9999\n"),
        ("*, kv40_mm2_s", "kv40_mm2_s"),
        ("    Returns\n    -------\n    float\n        Viscosity [mm2/s].\n", ""),
        ("Return the viscosity at a temperature.", ""),
        ("[mm2/s], above 2.", "[mm2/s]."),
        ("        Viscosity [mm2/s].\n", "        Viscosity.\n"),
        ("    Raises\n    ------\n    OutOfRangeError\n        If the temperature is outside its range.\n", ""),
        ("    References\n    ----------\n    astm_d341\n", ""),
    ],
)
def test_a_planted_drift_is_seen(before: str, after: str) -> None:
    assert before in GOOD
    assert judged(GOOD.replace(before, after))
