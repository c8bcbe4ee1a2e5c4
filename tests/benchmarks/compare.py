"""Speed now against the baseline, as ratios to a calibration: python tests/benchmarks/compare.py.

    python tests/benchmarks/compare.py              run all, print ratio then, ratio now, change
    python tests/benchmarks/compare.py -k cold      some of them, as pytest chooses
    python tests/benchmarks/compare.py --save       and write what was run as the new baseline

Reports and never fails for speed: a ratio still moves by a tenth or two from run to run.
"""

from __future__ import annotations

import argparse
import csv
import json
import subprocess
import sys
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path

from tabulate import tabulate

FOLDER = Path(__file__).parent
BASELINE = FOLDER / "baseline.csv"
NOISE = 0.2  # less of a change than this says nothing

Ratios = dict[str, tuple[str, float]]
"""Name of a benchmark: what it is measured against, and how many times as long it takes."""


def measured(results: Mapping[str, object]) -> Ratios:
    """Ratios out of the results of one run."""
    return {
        f"{one['fullname'].rpartition('/')[2]}": (
            one["extra_info"]["against"],
            one["stats"]["min"] / one["extra_info"]["calibration"],
        )
        for one in results["benchmarks"]
    }


def run(choose: str | None) -> Ratios:
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "benchmarks.json"
        command = [
            *(sys.executable, "-m", "pytest", str(FOLDER), "-q", "-p", "no:cacheprovider"),
            *("--benchmark-enable", "--benchmark-only", "--benchmark-quiet"),
            *("--benchmark-max-time=0.7", "--benchmark-min-rounds=3"),
            *(f"--benchmark-json={out}", *(("-k", choose) if choose else ())),
        ]
        done = subprocess.run(command, check=False, cwd=FOLDER.parents[1])
        if not out.exists() or not out.stat().st_size:
            raise SystemExit(done.returncode or 1)
        return measured(json.loads(out.read_text(encoding="utf-8")))


def stored(path: Path = BASELINE) -> Ratios:
    if not path.exists():
        return {}
    with path.open(encoding="utf-8", newline="") as stream:
        return {
            row["benchmark"]: (row["against"], float(row["ratio"]))
            for row in csv.DictReader(stream)
        }


def save(ratios: Ratios, path: Path = BASELINE) -> None:
    with path.open("w", encoding="utf-8", newline="") as stream:
        writer = csv.writer(stream, lineterminator="\n")
        writer.writerow(("benchmark", "against", "ratio"))
        for name, (against, ratio) in sorted(ratios.items()):
            writer.writerow((name, against, f"{ratio:.4g}"))


def table(then: Ratios, now: Ratios) -> str:
    rows = []
    for name, (against, ratio) in sorted(now.items(), key=lambda item: (item[1][0], item[0])):
        before = then.get(name)
        change = "new"
        if before is not None:
            part = ratio / before[1] - 1.0
            change = f"{part:+.0%}" if abs(part) >= NOISE else f"{part:+.0%} (noise)"
        rows.append((name, against, f"{before[1]:.3g}" if before else "-", f"{ratio:.3g}", change))
    return tabulate(rows, headers=("benchmark", "against", "then", "now", "change"))


def main(arguments: Sequence[str]) -> int:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("-k", metavar="WORDS", help="only some benchmarks, as for pytest")
    parser.add_argument("--save", action="store_true", help="write the ratios as the baseline")
    asked = parser.parse_args(arguments)
    then, now = stored(), run(asked.k)
    print(table(then, now))
    if gone := sorted(then.keys() - now.keys()) if asked.k is None else []:
        print("no longer measured:", ", ".join(gone))
    if asked.save:
        save({**then, **now} if asked.k else now)
        print(f"written: {BASELINE.name}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
