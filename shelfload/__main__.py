"""Run the command line: ``python -m shelfload``."""

from shelfload.cli import entry

entry()
