"""How many small faults put into solve/, check/ and units/ do the tests notice?

mutmut makes the faults and runs the tests; this file chooses which of them to try, and by which
tests. Run from the root of the checkout: ``python tests/mutation/sample.py --help``.
"""

from __future__ import annotations

import argparse
import csv
import math
import random
from collections import Counter, defaultdict
from itertools import pairwise
from pathlib import Path

import libcst as cst
import mutmut.__main__ as mutmut
from mutmut.mutation.data import SourceFileMutationData
from mutmut.mutation.diff_apply import get_diff_for_mutant
from mutmut.mutation.file_mutation import MutationVisitor
from mutmut.mutation.mutators import mutation_operators, operator_string
from mutmut.state import state
from mutmut.stats import status_by_exit_code
from mutmut.utils.file_utils import (
    copy_also_copy_files,
    copy_src_dir,
    setup_source_paths,
    walk_mutatable_files,
)
from mutmut.workers.isolation import ForkRunner

NOTICED = ("killed", "timeout", "segfault", "suspicious")
REASONS = Path(__file__).with_name("survivors.csv")


def leave_words_alone() -> None:
    """No mutants of words: strings, figures inside sentences, what an error says."""
    mutation_operators[:] = [
        (node, of) for node, of in mutation_operators if of is not operator_string
    ]
    skips = MutationVisitor._skip_node_and_children

    def skips_words_too(self, node) -> bool:
        return isinstance(node, cst.FormattedString | cst.Raise) or skips(self, node)

    MutationVisitor._skip_node_and_children = skips_words_too


def make() -> None:
    """Write all mutants into mutants/."""
    Path("mutants").mkdir(exist_ok=True)
    copy_src_dir()
    copy_also_copy_files()
    setup_source_paths()
    mutmut.create_mutants(1)


def results() -> dict[str, str]:
    """Every mutant and what became of it, in the order of the source."""
    found = {}
    for path in sorted(walk_mutatable_files()):
        data = SourceFileMutationData(path=path)
        data.load()
        found |= {name: status_by_exit_code[code] for name, code in data.exit_code_by_key.items()}
    return found


def choose(names: list[str], count: int, seed: int) -> list[str]:
    """One at random out of each of `count` equal stretches: every module gets its share."""
    draw = random.Random(seed)  # noqa: S311 - not a secret
    edges = [round(k * len(names) / count) for k in range(count + 1)]
    return [names[draw.randrange(low, high)] for low, high in pairwise(edges)]


def limit_tests(seconds: float) -> None:
    """Try each mutant only by the tests most likely to notice it, as far as `seconds` go.

    A test that calls few functions, and is quick, comes first. What no test within the time
    notices counts as survived.
    """
    collect = mutmut.collect_or_load_stats

    def collect_and_limit(*args, **kwargs) -> None:
        collect(*args, **kwargs)
        tests_of = state().tests_by_mangled_function_name
        takes = state().duration_by_test
        calls = Counter(test for tests in tests_of.values() for test in tests)
        for name, tests in tests_of.items():
            left, kept = seconds, set()
            for test in sorted(tests, key=lambda test: (calls[test] * (takes[test] + 0.003), test)):
                if left < 0:
                    break
                kept.add(test)
                left -= takes[test] + 0.003
            tests_of[name] = kept

    mutmut.collect_or_load_stats = collect_and_limit


def in_any_order(seed: int) -> None:
    """Try them in random order, not the quick ones first: a run cut short is a fair sample too."""
    draw = random.Random(seed)  # noqa: S311 - not a secret
    mutmut.estimated_worst_case_time = lambda name: draw.random()


def interval(noticed: int, tried: int) -> tuple[float, float]:
    """95 % interval of a share (Wilson's score interval)."""
    z, share = 1.959964, noticed / tried
    middle = (share + z**2 / (2 * tried)) / (1 + z**2 / tried)
    half = z * math.sqrt(share * (1 - share) / tried + z**2 / (4 * tried**2)) / (1 + z**2 / tried)
    return middle - half, middle + half


def room(name: str) -> str:
    return name.split(".")[1]


def change(name: str) -> dict[str, str]:
    """What a mutant changes, as a row of the list of survivors."""
    lines = get_diff_for_mutant(name).split("\n")[3:]
    old, new = (" ".join(line[1:].strip() for line in lines if line[0:1] == sign) for sign in "-+")
    module, _, function = name.partition("__mutmut_")[0].rpartition(".")
    function = function.removeprefix("x_").removeprefix("xǁ").replace("ǁ", ".")
    return {"module": module, "function": function, "mutation": f"{old} => {new}"}


def report(found: dict[str, str]) -> None:
    """Print the score of each room; list what survived for no reason that is known yet."""
    tried = {name: status for name, status in found.items() if status != "not checked"}
    groups = defaultdict(list)
    for name, status in tried.items():
        groups[room(name)].append(status)
        groups["all"].append(status)
    made = Counter(room(name) for name in found)
    for group, statuses in groups.items():
        noticed = sum(status in NOTICED for status in statuses)
        low, high = interval(noticed, len(statuses))
        print(
            f"{group}: {noticed} of {len(statuses)} noticed = {noticed / len(statuses):.1%} "
            f"({low:.1%} to {high:.1%}), of {made[group] or len(found)} made; "
            f"{dict(Counter(statuses))}"
        )
    with REASONS.open(encoding="utf-8", newline="") as file:
        known = {(row["module"], row["function"], row["mutation"]) for row in csv.DictReader(file)}
    survived = {name: change(name) for name, status in tried.items() if status not in NOTICED}
    new = {name: row for name, row in survived.items() if tuple(row.values()) not in known}
    print(f"{len(survived)} survivors, {len(new)} without a reason in {REASONS.name}")
    for name, row in new.items():
        print(name, *row["mutation"].split(" => "), sep="\n    ")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--all", action="store_true", help="every mutant, instead of a sample")
    parser.add_argument("--count", type=int, default=1500, help="how many to try")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", default="", help="start of the names of the mutants to try")
    parser.add_argument("--seconds", type=float, default=20.0, help="of tests for one mutant")
    parser.add_argument("--again", action="store_true", help="only what survived, a second look")
    parser.add_argument("--resume", action="store_true", help="trust that all tests pass as it is")
    parser.add_argument("--report", action="store_true", help="only show what is known")
    asked = parser.parse_args()
    leave_words_alone()
    if not asked.report:
        make()
        known = results()
        names = [name for name in known if name.startswith(asked.only)]
        if asked.again:
            waiting = [name for name in names if known[name] in ("survived", "no tests")]
        else:
            if not asked.all and asked.count < len(names):
                names = choose(names, asked.count, asked.seed)
            waiting = [name for name in names if known[name] == "not checked"]
        print(f"{len(known)} mutants, {len(waiting)} to try")
        limit_tests(asked.seconds)
        in_any_order(asked.seed)
        if asked.resume:
            ForkRunner.run_clean_tests = lambda self, tests: 0
        if waiting:
            mutmut._run(waiting, 1)
    report(results())


if __name__ == "__main__":
    main()
