"""What would fail only on another system: encodings left to chance, separators, file names."""

from __future__ import annotations

import ast
import re
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

import shelfload

PACKAGE = Path(shelfload.__file__).parent
ROOT = PACKAGE.parent
SOURCES = sorted(PACKAGE.rglob("*.py"))
BY_SOURCE = pytest.mark.parametrize(
    "path", SOURCES, ids=lambda path: path.relative_to(PACKAGE).as_posix()
)
# Where an encoding may stand without its keyword.
PLACE = {"read_text": 0, "write_text": 1, "open": 3, "fdopen": 3}


def name_of(call: ast.Call) -> str:
    match call.func:
        case ast.Attribute(attr=name) | ast.Name(id=name):
            return name
    return ""


def opens_text(call: ast.Call) -> bool:
    name = name_of(call)
    if name == "read_text" and isinstance(call.func, ast.Name):
        return False  # a function of ours that takes the text itself
    if name in ("read_text", "write_text", "TextIOWrapper"):
        return True
    if (
        name == "open"
        and isinstance(call.func, ast.Attribute)
        and ast.unparse(call.func) == "os.open"
    ):
        return False
    if name in ("open", "fdopen"):
        words = [argument for argument in call.args if isinstance(argument, ast.Constant)]
        words += [word.value for word in call.keywords if word.arg == "mode"]
        return not any(isinstance(word.value, str) and "b" in word.value for word in words)
    return name in ("NamedTemporaryFile", "TemporaryFile")


def without_encoding(tree: ast.AST) -> Iterator[int]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and opens_text(node):
            named = any(word.arg == "encoding" for word in node.keywords)
            if not named and len(node.args) <= PLACE.get(name_of(node), 99):
                yield node.lineno


@BY_SOURCE
def test_every_text_file_is_opened_with_its_encoding(path: Path) -> None:
    assert list(without_encoding(ast.parse(path.read_text(encoding="utf-8")))) == []


@BY_SOURCE
def test_no_separator_is_written_into_a_path(path: Path) -> None:
    # folder / "a" / "b", never "a/b": and nothing is taken apart at a stroke
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        match node:
            case ast.BinOp(op=ast.Div(), right=ast.Constant(value=str(name))):
                assert not re.search(r"[/\\]", name), f"line {node.lineno}"
            case ast.Call(func=ast.Attribute(attr="joinpath") | ast.Name(id="Path"), args=[*words]):
                for word in words:
                    if isinstance(word, ast.Constant):
                        assert not re.search(r"[/\\]", str(word.value)), f"line {node.lineno}"
            case ast.Attribute(value=ast.Name(id="os"), attr="sep" | "linesep" | "path"):
                pytest.fail(f"line {node.lineno}: pathlib knows it")


def test_the_test_above_finds_what_it_is_for() -> None:
    bad = "open(p)\np.read_text()\nos.fdopen(h, 'w')\np.write_text(text)\np.open()\n"
    good = (
        "open(p, 'rb')\np.read_text('utf-8')\nos.fdopen(h, 'w', encoding='utf-8')\nread_text(x)\n"
        "p.open('rb')\np.open(encoding='utf-8')\nos.open(p, 0)\n"
    )
    assert list(without_encoding(ast.parse(bad))) == [1, 2, 3, 4, 5]
    assert list(without_encoding(ast.parse(good))) == []


def tracked() -> list[str]:
    """Files of the project, as git lists them, or all of a tree without git."""
    try:
        listed = subprocess.run(
            ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
            cwd=ROOT, capture_output=True, check=True,
        ).stdout.decode()  # fmt: skip
        return [name for name in listed.split("\0") if name]
    except (OSError, subprocess.CalledProcessError):
        return [
            path.relative_to(ROOT).as_posix()
            for folder in ("shelfload", "tables", "tests")
            for path in (ROOT / folder).rglob("*")
        ]


# Microsoft, "Naming Files, Paths, and Namespaces": names of devices, whatever the suffix
DEVICES = {
    "con",
    "prn",
    "aux",
    "nul",
    *(f"{port}{n}" for port in ("com", "lpt") for n in range(10)),
}


def test_file_names_exist_on_every_system() -> None:
    names = tracked()
    assert len(names) > 100
    assert len({name.casefold() for name in names}) == len(set(names))
    for name in names:
        assert len(name) < 120  # of the 260 that Windows allows with the folder before it
        for part in name.split("/"):
            assert part.partition(".")[0].casefold() not in DEVICES, name
            assert not re.search(r'[<>:"\\|?*\x00-\x1f]|[. ]$', part), name
            assert part.isascii(), name


@pytest.mark.parametrize("folder", ["tables", "shelfload", "tests"])
def test_text_files_have_one_kind_of_line_end(folder: str) -> None:
    for path in (ROOT / folder).rglob("*"):
        if path.suffix in {".py", ".csv", ".toml", ".html", ".css", ".md", ".json"}:
            assert b"\r" not in path.read_bytes(), path
