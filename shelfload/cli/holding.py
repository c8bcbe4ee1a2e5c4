"""Options of the shelf command that say what holds it to a wall."""

from __future__ import annotations

import argparse


def add_holding(command: argparse.ArgumentParser) -> None:
    """Let brackets, a cleat or rods be said, and the wall they go into."""
    group = command.add_argument_group("on the wall")
    add = group.add_argument
    kind = group.add_mutually_exclusive_group()
    kind.add_argument("--brackets", type=int, metavar="COUNT", help="on brackets: how many")
    kind.add_argument("--cleat", metavar="HEIGHT", help="on a strip along the back, this high")
    kind.add_argument("--rods", type=int, metavar="COUNT", help="on concealed rods: how many")
    add(
        "--length",
        metavar="LENGTH",
        help="of the shelf, instead of --span: brackets go where the shelf sags least",
    )
    add("--bracket-height", metavar="LENGTH", help="from its foot to its upper fixing")
    add("--cleat-ends", action="store_true", help="strips at both ends too")
    add("--rod", metavar="DIAMETER", help="of each rod")
    add("--rod-in-wall", metavar="LENGTH", help="in sound wall, board and plaster not counted")
    add("--screw", metavar="NAME", help='as sold, "6 x 80 mm", or a name: see shelfload fasteners')
    add("--screw-length", metavar="LENGTH")
    add("--fixings", type=int, metavar="COUNT", help="of each bracket, or of the strip")
    add("--wall", metavar="NAME", help='"timber stud", "solid brick", "plasterboard", "unknown"')
    add("--stud-spacing", metavar="LENGTH", help="centre to centre")
    add("--people-below", action="store_true", help="people sit, work or sleep under it")
    add("--children", action="store_true", help="children can reach it")
