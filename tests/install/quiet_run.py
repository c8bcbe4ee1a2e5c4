"""Run every command in one process that may touch nothing: started by test_quiet_machine.py.

An audit hook refuses the network and other programs, and notes every file that is opened for
writing. Prints what each command did as JSON.
"""

from __future__ import annotations

import io
import json
import os
import sys

REFUSED = ("socket.", "subprocess.", "os.system", "os.exec", "os.posix_spawn", "urllib.", "ftplib.")
REMOVED = ("os.remove", "os.rename", "os.mkdir", "os.rmdir", "shutil.", "tempfile.")
seen: list[str] = []


def watch(event: str, arguments: tuple[object, ...]) -> None:
    if event.startswith(REFUSED):
        seen.append(f"{event} {arguments!r:.80}")
        raise RuntimeError(f"refused: {event}")
    if event.startswith(REMOVED):
        seen.append(f"{event} {arguments!r:.80}")
    if event == "open":
        path, _, flags = arguments
        written = isinstance(flags, int) and flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT)
        if written and path != os.devnull:
            seen.append(f"open {path!r} for writing")


def main() -> None:
    sys.addaudithook(watch)
    from every_command import ANSWERS, COMMANDS

    from shelfload.cli import main as run

    found = {}
    for name, arguments in COMMANDS.items():
        seen.clear()
        out, err = io.StringIO(), io.StringIO()
        stdin, stdout, stderr = sys.stdin, sys.stdout, sys.stderr
        sys.stdin, sys.stdout, sys.stderr = io.StringIO(ANSWERS), out, err
        try:
            status = run(arguments)
        finally:
            sys.stdin, sys.stdout, sys.stderr = stdin, stdout, stderr
        found[name] = {
            "status": status,
            "out": len(out.getvalue()),
            "err": err.getvalue(),
            "seen": list(seen),
        }
    sys.stdout.write(json.dumps(found))


if __name__ == "__main__":
    main()
