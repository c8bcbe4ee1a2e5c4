"""shelfload: will this shelf carry its load, and will it stay up?

The public interface::

    import shelfload

    outcome = shelfload.check_file("store.toml")
    outcome.verdict
    outcome.findings.checks[0].quantity.to("in")
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Any

    from shelfload.advise.outcome import Outcome

__all__ = ["check_file", "check_mapping", "check_text"]
__version__ = "0.1.0"

# What a command does not need is not imported: starting up is most of a short run.


def check_file(path: str | Path) -> Outcome:
    """Check a description file.

    Parameters
    ----------
    path : str or Path
        A TOML file.

    Returns
    -------
    Outcome
        Checks, safe loads, advice, assumptions and cautions.

    Raises
    ------
    shelfload.errors.DescriptionError
        With every mistake found.
    """
    from shelfload.advise.outcome import outcome
    from shelfload.describe.reader import read_file

    return outcome(read_file(Path(path)))


def check_text(text: str) -> Outcome:
    """Check a description given as TOML text; see :func:`check_file`."""
    from shelfload.advise.outcome import outcome
    from shelfload.describe.reader import read_text

    return outcome(read_text(text))


def check_mapping(description: Mapping[str, Any]) -> Outcome:
    """Check a description given as nested mappings; see :func:`check_file`.

    Lengths, loads and the like are text with a unit or pint quantities.
    """
    from shelfload.advise.outcome import outcome
    from shelfload.describe.reader import read_raw

    return outcome(read_raw(description))
