"""Coverage-guided fuzzing of one reader: python tests/fuzz/run.py TARGET --seconds 600.

Needs the extra ``fuzz`` (atheris). What breaks is left in the folder ``--found``; what
covers new lines is kept in ``--work`` and is where the next run starts.
"""

from __future__ import annotations

import argparse
import json
import sys
import tempfile
from pathlib import Path
from typing import Any

import atheris

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))
with atheris.instrument_imports(include=["shelfload"]):
    from fuzz import mutate, oracle

    from shelfload import tables
    from shelfload.describe.examples import example_names, example_text
    from shelfload.tables.reader import folder
    from shelfload.units.factors import FACTORS

TARGETS = (*oracle.READERS, "furniture")
_LENGTH = {"quantity": 100, "toml": 8000, "check": 30_000, "furniture": 4000}


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("target", choices=TARGETS)
    parser.add_argument("--seconds", type=int, default=600)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--work", type=Path, help="folder of inputs, kept between runs")
    parser.add_argument("--found", type=Path, default=Path(), help="folder for what breaks")
    asked = parser.parse_args()
    work = asked.work or Path(tempfile.mkdtemp(prefix="shelfload-fuzz-"))
    work.mkdir(parents=True, exist_ok=True)
    asked.found.mkdir(parents=True, exist_ok=True)
    for number, text in enumerate(_seeds(asked.target)):
        (work / f"seed-{number}").write_text(text, encoding="utf-8", newline="")
    options = [
        sys.argv[0],
        str(work),
        f"-max_total_time={asked.seconds}",
        f"-seed={asked.seed}",
        f"-max_len={_LENGTH.get(asked.target, 4000)}",
        f"-artifact_prefix={asked.found}/{asked.target}-",
        f"-dict={_words(work)}",
        "-timeout=60",
        "-rss_limit_mb=1500",
        "-print_final_stats=1",
    ]
    one, more = _one(asked.target)
    atheris.Setup(options, one, **more)
    atheris.Fuzz()


def _one(target: str) -> tuple[Any, dict[str, Any]]:
    """Return what is done with one input, and the mutator of targets that have their own."""
    if target == "check":

        def tree(data: bytes) -> None:
            try:
                raw = json.loads(data)
            except (ValueError, RecursionError):
                return
            if isinstance(raw, dict):
                oracle.check_raw(raw)

        return tree, {"custom_mutator": mutate.mutated}
    if target == "furniture":
        from fuzz.furniture import descriptions
        from hypothesis import given

        return given(descriptions())(oracle.check_raw).hypothesis.fuzz_one_input, {}
    read = oracle.READERS[target]

    def text(data: bytes) -> None:
        read(data.decode("utf-8", "surrogateescape"))

    return text, {}


def _seeds(target: str) -> list[str]:
    match target:
        case "quantity":
            return ["12,5 mm", "1 1/2 in", "5' 6 1/2\"", "25 lb/ft", "No. 8", "600 mm; 2 ft", "M6"]
        case "check":
            return mutate.seeds()
        case "furniture":
            return [str(number) * 200 for number in range(4)]
        case "toml":
            return [example_text(name) for name in example_names()]
        case "supplier":
            return [
                "row,length [mm],width,thickness,qty,material\n1,600,300 mm,18 mm,2,plywood\n",
                'length;width;t\n"23 5/8 in";12,5 mm;18 mm\n',
            ]
        case _:
            start = "materials_" if target == "materials" else "contents_"
            return [
                "\n".join(path.read_text(encoding="utf-8").splitlines()[:4])
                for path in folder().glob(f"{start}*.csv")
            ]


def _words(folder: Path) -> Path:
    """Write the words of the readers as a dictionary of the fuzzer."""
    words = {unit for units in FACTORS.values() for unit in units}
    words |= {str(name) for name in (*tables.materials(), *tables.contents(), *tables.limits())}
    for name in example_names():
        words |= set(example_text(name).replace("=", " ").split())
    quoted = sorted({word.encode("ascii", "ignore").decode() for word in words})
    path = folder.parent / f"{folder.name}.dict"
    lines = ['"' + word.replace("\\", "\\\\").replace('"', '\\"') + '"' for word in quoted if word]
    path.write_text("\n".join(lines) + "\n", encoding="ascii")
    return path


if __name__ == "__main__":
    main()
