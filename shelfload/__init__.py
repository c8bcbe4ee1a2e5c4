"""shelfload: will this shelf carry its load, and will it stay up?

The public interface::

    import shelfload

    outcome = shelfload.check("store.toml")
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

__all__ = ["check", "check_text"]
__version__ = "0.1.0"


def check(description: str | Path | Mapping[str, Any]) -> Outcome:
    """Check a description.

    Parameters
    ----------
    description : path or mapping
        A TOML file, or the same content as nested mappings; every length and load is text
        with a unit or a pint quantity.

    Returns
    -------
    Outcome
        Checks, safe loads, advice, assumptions and cautions.

    Raises
    ------
    shelfload.errors.DescriptionError
        With every mistake found.
    """
    # what a command does not need is not imported: starting up is most of a short run
    from shelfload.advise.outcome import outcome
    from shelfload.describe.reader import read_file, read_raw

    if isinstance(description, str | Path):
        return outcome(read_file(Path(description)))
    return outcome(read_raw(description))


def check_text(text: str) -> Outcome:
    """Check a description given as TOML text; see :func:`check`."""
    from shelfload.advise.outcome import outcome
    from shelfload.describe.reader import read_text

    return outcome(read_text(text))
