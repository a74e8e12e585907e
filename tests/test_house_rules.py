"""Who may import whom, how long a thing may be, and what a formula must say. A rule that nothing checks is a wish."""

import ast
import inspect
import pkgutil
import re
import statistics
import sys
import tokenize
from importlib import import_module
from io import StringIO
from pathlib import Path

import pytest
from numpy.typing import ArrayLike

import yardapp
from yardapp import formulas

HOME = Path(yardapp.__file__).parent
TESTS = Path(__file__).parent
ROOMS = {path.parent.name for path in [*HOME.glob("*/services.py"), *HOME.glob("*/services/__init__.py")]}
ONLY = {  # these may import the standard library and nothing but
    "formulas": {"numpy", "uncertainties", "yardapp.formulas"},
    "drawings": {"numpy", "markupsafe", "yardapp.formulas", "yardapp.drawings"},
    "stamps": {"yardapp.stamps", "yardapp.quantities"},
    "quantities": {"pint", "yardapp.quantities"},
    "pdf": {"reportlab", "yardapp.pdf"},
    "errors": {"yardapp.formulas"},
    "config": set(),
    "db": {"sqlalchemy", "yardapp.config"},
}
NEVER = {  # in every room
    "models": {"flask", "wtforms", "pint"},
    "services": {"flask", "wtforms", "pint"},
    "forms": {"flask", "sqlalchemy", "pint"},
    "views": {"sqlalchemy", "pint"},
    "showing": {"flask", "sqlalchemy", "wtforms", "pint"},
}
# What one room may ask of another besides its services: what is pure, and can't reach the register.
PURE = {
    "yardapp.people.who",
    "yardapp.gear.figures",
    "yardapp.gear.working",
    "yardapp.gear.showing",
    "yardapp.fit.figures",
    "yardapp.fit.verdict",
}
SOURCES = sorted(HOME.rglob("*.py"))
# A statement (`has_ended`) has no unit, and what `hold` looks at has whatever its caller's has.
UNITLESS = re.compile(r"(is|has)_.*|.*(_ratio|_count|_number|_factor|taper)|blades|relative_humidity|diameters?_power")
UNITS = re.compile(r".*_(m|m2|m3|m3ps|rad|kg|s|n|nm|w|pa|c|mps|mps2|rps|kgpm3|m2ps)")


def name_of(path):
    return str(path.relative_to(HOME))


def imports(path):
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def within(name, allowed):
    return any(name == one or name.startswith(f"{one}.") for one in allowed)


@pytest.mark.parametrize("path", SOURCES, ids=name_of)
def test_imports_point_the_right_way(path):
    parts = path.relative_to(HOME).with_suffix("").parts
    for name in imports(path):
        if parts[0] in ONLY:
            assert name.split(".")[0] in sys.stdlib_module_names or within(name, ONLY[parts[0]]), name
        if name.split(".")[0] == "pint":
            assert parts[0] == "quantities", name
        if name.split(".")[0] == "reportlab":
            assert parts[0] == "pdf", name
        if parts[0] in ROOMS and len(parts) > 1:
            assert not within(name, NEVER.get(parts[1], ())), name
            others = {f"yardapp.{room}" for room in ROOMS - {parts[0]}}
            # A test or a page of words may name the type of another room's row; nothing may query it.
            if within(name, others) and not within(name, PURE) and not within(name, {"yardapp.api"}):
                assert name.split(".")[2] == "services", name


@pytest.mark.parametrize("path", SOURCES, ids=name_of)
def test_views_see_no_models(path):
    parts = path.relative_to(HOME).with_suffix("").parts
    if parts[0] in ROOMS and len(parts) > 1 and parts[1] == "views":
        assert not [name for name in imports(path) if ".models" in name]


def code_lines(path):
    """Lines that hold code: no blank, no comment, no docstring."""
    text = path.read_text()
    held = set()
    for token in tokenize.generate_tokens(StringIO(text).readline):
        if token.type not in (
            tokenize.COMMENT,
            tokenize.NL,
            tokenize.NEWLINE,
            tokenize.INDENT,
            tokenize.DEDENT,
            tokenize.ENDMARKER,
        ):
            held.update(range(token.start[0], token.end[0] + 1))
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant) and isinstance(node.value.value, str):
            held.difference_update(range(node.lineno, node.end_lineno + 1))
    return held


def functions():
    for path in SOURCES:
        held = code_lines(path)
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.FunctionDef):
                first = node.body[0].lineno
                yield f"{name_of(path)}:{node.name}", len([line for line in held if first <= line <= node.end_lineno])


def test_functions_are_short():
    sizes = dict(functions())

    assert {name: size for name, size in sizes.items() if size > 40} == {}
    assert statistics.median(sizes.values()) <= 8
    assert sum(size <= 20 for size in sizes.values()) >= 0.9 * len(sizes)


def test_modules_are_short():
    sizes = {name_of(path): len(path.read_text().splitlines()) for path in SOURCES}

    assert {name: size for name, size in sizes.items() if size > 400} == {}
    assert sum(size <= 250 for size in sizes.values()) >= 0.9 * len(sizes)


@pytest.mark.parametrize("path", SOURCES, ids=name_of)
def test_no_file_is_named_for_what_it_is_not(path):
    assert path.stem not in {"utils", "helpers", "common", "misc", "manager", "util", "helper"}


@pytest.mark.parametrize("path", SOURCES, ids=name_of)
def test_every_public_thing_says_what_it_is(path):
    tree = ast.parse(path.read_text())
    assert ast.get_docstring(tree), "the module"
    for node in tree.body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_"):
            assert ast.get_docstring(node), node.name


def public_formulas():
    for module in pkgutil.iter_modules(formulas.__path__, "yardapp.formulas."):
        if module.name.endswith((".ranges", ".uncertainty", ".tables", ".roots")):  # tools of formulas, not formulas
            continue
        loaded = import_module(module.name)
        for name, thing in inspect.getmembers(loaded, inspect.isfunction):
            if thing.__module__ == module.name and not name.startswith("_"):
                yield thing


@pytest.mark.parametrize(
    "formula", list(public_formulas()), ids=lambda formula: f"{formula.__module__.split('.')[-1]}.{formula.__name__}"
)
def test_formula_says_its_parameters_errors_and_source(formula):
    said = inspect.getdoc(formula)
    for parameter in inspect.signature(formula).parameters.values():
        assert re.search(rf"^\*{{0,2}}[\w, ]*\b{parameter.name}\b[\w, ]*( :|$)", said, re.MULTILINE), parameter.name
        if parameter.annotation is ArrayLike and not formula.__name__.startswith("hold_"):
            assert UNITS.fullmatch(parameter.name) or UNITLESS.fullmatch(parameter.name), parameter.name
    for heading in ("Returns", "Raises", "Source", "Examples"):
        assert f"\n{heading}\n---" in said, heading


@pytest.mark.parametrize("path", sorted(TESTS.rglob("test_*.py")), ids=lambda path: str(path.relative_to(TESTS)))
def test_nothing_looks_like_a_test_without_being_one(path):
    tree = ast.parse(path.read_text())
    for node in tree.body:
        if isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
            assert any(isinstance(one, ast.Assert) or is_check(one) for one in ast.walk(node)), node.name


def is_check(node):
    """`pytest.raises`, or a call of something that checks by its name."""
    name = getattr(getattr(node, "func", None), "attr", getattr(getattr(node, "func", None), "id", ""))
    return isinstance(node, ast.Call) and bool(
        re.match(r"raises|fails|check|fetch|look|holds|expect|must|assert", str(name))
    )


def test_templates_hold_no_style_script_or_sum():
    for path in (HOME.parent / "templates").rglob("*.html"):
        text = path.read_text()
        assert "<style" not in text, path
        assert not re.search(r"<script(?![^>]*\bsrc=)", text), path
        assert not re.search(r'\sstyle="', text), path
        assert "|round" not in text.replace(" ", ""), path
