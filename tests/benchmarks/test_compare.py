"""The comparison with the baseline: figures in, table out; nothing is timed here."""

from __future__ import annotations

import runpy
from pathlib import Path

import pytest

COMPARE = runpy.run_path(str(Path(__file__).with_name("compare.py")))


def results(name: str, seconds: float, calibration: float) -> dict[str, object]:
    return {
        "benchmarks": [
            {
                "fullname": f"tests/benchmarks/{name}",
                "stats": {"min": seconds},
                "extra_info": {"against": "loop", "calibration": calibration},
            }
        ]
    }


def test_ratio_is_the_same_on_a_machine_half_as_fast() -> None:
    here = COMPARE["measured"](results("test_beam_speed.py::test_solve[3]", 0.03, 0.01))
    slower = COMPARE["measured"](results("test_beam_speed.py::test_solve[3]", 0.06, 0.02))
    assert here == slower == {"test_beam_speed.py::test_solve[3]": ("loop", pytest.approx(3.0))}


def test_baseline_is_read_as_it_was_written(tmp_path: Path) -> None:
    ratios = {"test_a.py::test_x[2-1, half]": ("loop", 1.234), "test_b.py::test_y": ("loop", 20.0)}
    COMPARE["save"](ratios, tmp_path / "baseline.csv")
    assert COMPARE["stored"](tmp_path / "baseline.csv") == ratios
    assert b"\r" not in (tmp_path / "baseline.csv").read_bytes()


def test_change_is_shown_and_small_ones_are_called_noise() -> None:
    then = {"slower": ("loop", 1.0), "same": ("loop", 2.0)}
    now = {"slower": ("loop", 1.5), "same": ("loop", 2.1), "fresh": ("loop", 3.0)}
    shown = {line.split()[0]: line for line in COMPARE["table"](then, now).splitlines()[2:]}
    assert shown["slower"].endswith("+50%")
    assert shown["same"].endswith("+5% (noise)")
    assert shown["fresh"].endswith("new")
