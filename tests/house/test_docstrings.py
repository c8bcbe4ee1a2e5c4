"""The docstrings of solve/ are a contract: arguments in order, units last, source named.

The rule, for every public function of every module in shelfload/solve:

* a section Parameters lists the arguments, all of them, in the order of the signature;
* the description of each parameter and of each item of Returns ends with a unit in square
  brackets, such as [mm], [N/mm2], [-]; a full stop may follow;
* a line in Notes begins with "Source:".

For every public dataclass: a section Attributes (or Parameters) lists the fields likewise.
Several names may share an entry ("E, G : array_like"). Methods and private names are exempt.
Examples are run as doctests; a figure needs to agree only in the digits that are shown.
"""

from __future__ import annotations

import dataclasses
import doctest
import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from types import ModuleType

import pytest

import shelfload.solve

UNIT_LAST = re.compile(r"\[[^\[\]]+\]\.?$")
HEADING = re.compile(r"^(\w[\w ]*)\n-{3,}$", re.MULTILINE)
FIGURE = re.compile(r"[+-]?\d+(?:\.(?P<decimals>\d*))?(?:[eE](?P<exponent>[+-]?\d+))?")


def modules() -> Iterator[ModuleType]:
    for found in pkgutil.iter_modules(shelfload.solve.__path__, "shelfload.solve."):
        yield importlib.import_module(found.name)


def own_members(module: ModuleType) -> Iterator[tuple[str, object]]:
    for name, member in vars(module).items():
        if not name.startswith("_") and getattr(member, "__module__", None) == module.__name__:
            yield name, member


def sections(member: object) -> dict[str, str]:
    parts = HEADING.split(inspect.getdoc(member) or "")
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def entries(section: str) -> Iterator[tuple[list[str], str]]:
    """Names and description of each entry of a numpydoc section."""
    for entry in re.split(r"\n(?=\S)", section.strip("\n")):
        head, _, description = entry.partition("\n")
        names = [name.strip().lstrip("*") for name in head.split(" : ")[0].split(",")]
        yield names, " ".join(description.split())


def without_unit(where: str, section: str) -> list[str]:
    return [
        f"{where}: {', '.join(names)}: no [unit] at the end"
        for names, description in entries(section)
        if not UNIT_LAST.search(description)
    ]


def faults_of_function(where: str, function: Callable[..., object]) -> list[str]:
    found = sections(function)
    faults = []
    arguments = list(inspect.signature(function).parameters)
    listed = [name for names, _ in entries(found.get("Parameters", "")) for name in names if name]
    if listed != arguments:
        faults.append(f"{where}: Parameters lists {listed}, the signature {arguments}")
    if listed:
        faults += without_unit(where, found["Parameters"])
    if inspect.signature(function).return_annotation not in ("None", None):
        if "Returns" in found:
            faults += without_unit(f"{where}: Returns", found["Returns"])
        else:
            faults.append(f"{where}: no section Returns")
    if not re.search(r"^Source: \S", found.get("Notes", ""), re.MULTILINE):
        faults.append(f"{where}: no line 'Source: ...' in Notes")
    return faults


def faults_of_dataclass(where: str, cls: type) -> list[str]:
    found = sections(cls)
    section = found.get("Attributes") or found.get("Parameters", "")
    listed = {name for names, _ in entries(section) for name in names}
    missing = [
        field.name
        for field in dataclasses.fields(cls)
        if not field.name.startswith("_") and field.name not in listed
    ]
    faults = [f"{where}: Attributes misses {', '.join(missing)}"] if missing else []
    return faults + (without_unit(where, section) if section else [])


def faults_of(module: ModuleType) -> list[str]:
    faults = []
    for name, member in own_members(module):
        where = f"{module.__name__}.{name}"
        if inspect.isfunction(member):
            faults += faults_of_function(where, member)
        elif inspect.isclass(member) and dataclasses.is_dataclass(member):
            faults += faults_of_dataclass(where, member)
    return faults


def test_every_docstring_keeps_the_contract():
    faults = [fault for module in modules() for fault in faults_of(module)]
    assert not faults, f"{len(faults)} faults:\n" + "\n".join(faults)


class DigitsShown(doctest.OutputChecker):
    """Right if every figure rounds to the digits that the example shows."""

    def check_output(self, want: str, got: str, optionflags: int) -> bool:
        if super().check_output(want, got, optionflags):
            return True
        wanted, given = list(FIGURE.finditer(want)), list(FIGURE.finditer(got))
        if (
            len(wanted) != len(given)
            or FIGURE.sub("#", want).split() != FIGURE.sub("#", got).split()
        ):
            return False
        return all(
            abs(float(w.group()) - float(g.group())) <= half_a_digit(w)
            for w, g in zip(wanted, given, strict=True)
        )


def half_a_digit(figure: re.Match[str]) -> float:
    decimals = figure["decimals"]
    if decimals is None:
        return 0.0  # a whole number is meant exactly
    return 0.5 * 10.0 ** (int(figure["exponent"] or 0) - len(decimals)) * (1 + 1e-9)


def test_every_example_gives_the_digits_it_shows():
    flags = doctest.NORMALIZE_WHITESPACE | doctest.ELLIPSIS
    runner = doctest.DocTestRunner(checker=DigitsShown(), optionflags=flags, verbose=False)
    report: list[str] = []
    for module in modules():
        for example in doctest.DocTestFinder().find(module):
            runner.run(example, out=report.append)
    assert runner.summarize(verbose=False).failed == 0, "".join(report)


@pytest.mark.parametrize(
    ("docstring", "told"),
    [
        ("", "Parameters lists []"),
        ("Parameters\n----------\nb : float\n    Width [mm]\na : float\n    Depth [mm]", "lists"),
        ("Parameters\n----------\na : float\n    Depth [mm]\nb : float\n    Width", "no [unit]"),
        ("Parameters\n----------\na, b : float\n    Sizes [mm]", "no section Returns"),
        ("Notes\n-----\nNo source is named.", "no line 'Source: ...'"),
    ],
)
def test_each_fault_is_told(docstring, told):
    def function(a: float, b: float) -> float:
        return a + b

    function.__doc__ = docstring
    assert any(told in fault for fault in faults_of_function("here", function))


@pytest.mark.parametrize(
    ("want", "got", "right"),
    [
        ("0.01661", "0.016609432", True),
        ("0.01661", "0.016616", False),
        ("1.5e3", "1549.0", True),
        ("3", "3.2", False),
        ("[1.0 2.0]", "[1.04 2.0]", True),
        ("[1.0 2.0]", "[1.04]", False),
        ("rigid", "pinned", False),
    ],
)
def test_figures_are_compared_to_the_digits_shown(want, got, right):
    assert DigitsShown().check_output(want + "\n", got + "\n", 0) is right
