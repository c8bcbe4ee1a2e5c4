"""The whole answer to a description: findings, advice and cautions together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from shelfload.advise.cautions import cautions
from shelfload.advise.remedies import Advice, advise
from shelfload.check.assess import Findings, assess
from shelfload.check.result import Verdict
from shelfload.describe.reader import Description

if TYPE_CHECKING:
    from shelfload.advise.odds import Odds


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What every report is a view of.

    Attributes
    ----------
    title : str
        Of the description.
    findings : Findings
        Checks, safe loads and assumptions.
    advice : tuple of Advice
        What to do, most urgent first.
    cautions : tuple of str
        What the program can't see, matched to what is described.
    odds : Odds or None
        Chances of sag and overload, where they were asked for.
    """

    title: str
    findings: Findings
    advice: tuple[Advice, ...]
    cautions: tuple[str, ...]
    odds: Odds | None = None

    @property
    def verdict(self) -> Verdict:
        """The gravest answer."""
        return self.findings.verdict


def outcome(description: Description) -> Outcome:
    """Check a description, look for what would help, and add the cautions it calls for."""
    findings = assess(description.project, description.catalogue)
    return Outcome(
        title=description.project.title or "Shelves",
        findings=findings,
        advice=tuple(advise(description, findings)),
        cautions=tuple(cautions(description, findings)),
    )
