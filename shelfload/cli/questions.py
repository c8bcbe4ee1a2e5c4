"""The questions that a description starts from, in trade words, in the order of building."""

from __future__ import annotations

from dataclasses import dataclass

from shelfload import tables, units
from shelfload.cli.asking import Asker
from shelfload.describe import answers
from shelfload.describe.answers import alike, quoted
from shelfload.describe.schema import FILE_NAME
from shelfload.describe.site import CLIMATES, NO_FIXING
from shelfload.units import UnitSystem

_SHEETS = "Sheets: {}; solid woods too: shelfload materials lists all."
_STOCK = (
    'A name such as books ("shelfload contents" lists all), a load such as 40 kg, 30 kg/m or '
    "25 lb/ft, a number of things such as 12 lever-arch-file-each, or empty. Bay by bay, parted "
    "by ; where they differ."
)


@dataclass(frozen=True, slots=True)
class Started:
    """A description in TOML, and the units it was asked in."""

    text: str
    system: UnitSystem


@dataclass(frozen=True, slots=True)
class _Sizes:
    """What an empty answer means, in one system of units."""

    depth: str
    sheet: str
    width: str
    height: str
    housing: str
    back: str
    spacing: str
    underside: str
    studs: str
    span: str
    support: str


_DEFAULTS: dict[UnitSystem, _Sizes] = {
    "metric": _Sizes(
        "400 mm", "18 mm", "600 mm", "350 mm", "6 mm", "6.5 mm", "150 mm", "1400 mm", "400 mm",
        "900 mm", "40 mm",
    ),
    "inch": _Sizes(
        "16 in", "3/4 in", "24 in", "14 in", "1/4 in", "1/4 in", "6 in", "54 in", "16 in",
        "36 in", "1 1/2 in",
    ),
}  # fmt: skip


def describe(asker: Asker) -> Started:
    """Ask everything and return the description."""
    asker.say("Enter takes the answer in brackets, ? explains, Ctrl-C stops and writes nothing.")
    unit = asker.ask("Units: mm or inches?", "mm", answers.choice("mm", "millimetres", "inches"))
    system: UnitSystem = "inch" if unit == "inches" else "metric"
    asker.say(f"A number without a unit is in {'inches' if system == 'inch' else 'mm'} from here.")
    what = asker.ask(
        "What is it? (unit, shelf)", "unit", answers.choice("unit", "shelf"),
        "A unit has sides: a cupboard, a bookcase, a stack of boxes. A shelf has none: on "
        "supports of its own, a desk top, a bench top.",
    )  # fmt: skip
    name = asker.ask("What do you call it?", "my shelves", answers.called)
    standing = "on the floor"
    if what == "unit":
        asked = asker.ask("Does it stand on the floor or hang on a wall? (floor, wall)", "floor",
                          answers.choice("floor", "wall"))  # fmt: skip
        standing = f"on the {asked}"
    lines = [
        f"#:schema ./{FILE_NAME}",
        "# Made from answers; every length and load carries its unit, and units may be mixed.",
        f"title = {quoted(name)}",
        "",
        "[site]",
    ]
    tied = "false"
    if what == "unit" and standing == "on the floor":
        tied = asker.ask(
            "Will its top be fixed back to a wall? (yes, no)", "no", answers.yes_no,
            "Anything tall can tip over; a fixing that is not sure is a no.",
        )  # fmt: skip
    lines += _site(asker, system, walled=standing == "on the wall" or tied == "true")
    lines.append("")
    if what == "unit":
        lines += _unit(asker, system, name, standing, tied=tied == "true")
    else:
        lines += _shelf(asker, system, name)
    return Started("\n".join(lines) + "\n", system)


def _site(asker: Asker, system: UnitSystem, *, walled: bool) -> list[str]:
    climate = asker.ask(
        "Where? (indoor, humid, outdoor)", "indoor", answers.choice(*CLIMATES),
        "Indoor is heated; humid is a garage, a cellar, an unheated shed.",
    )  # fmt: skip
    below = asker.ask("Do people sit, work or sleep under it? (yes, no)", "no", answers.yes_no)
    children = asker.ask("Can children reach it? (yes, no)", "yes", answers.yes_no)
    lines = [
        f'service_class = "{climate}"   # indoor, humid (garage, cellar) or outdoor',
        f"people_below = {below}",
        f"children = {children}",
    ]
    if walled:
        walls = [*tables.substrates(), NO_FIXING]
        wall = asker.ask("What is the wall made of?", "unknown", answers.choice(*walls),
                         f"One of: {', '.join(walls)}.")  # fmt: skip
        lines.append(f'wall = "{wall}"   # "unknown" is an answer too')
        if wall in ("timber stud", "metal stud"):
            studs = asker.ask("How far apart are the studs, centre to centre?",
                              _DEFAULTS[system].studs,
                              answers.length(system, 100.0, 2000.0))  # fmt: skip
            lines.append(f"stud_spacing = {quoted(studs)}")
    return lines


def _sheet(asker: Asker, system: UnitSystem, what: str, made_of: str, thick: str) -> str:
    """Ask for a material and its thickness; return them as keys of a table."""
    more = _SHEETS.format(", ".join(sorted(tables.families())))
    material = asker.ask(f"{what}: made of?", made_of, answers.material, more)
    thickness = asker.ask(f"{what}: how thick, as sold?", thick,
                          answers.thickness(system, material))  # fmt: skip
    return f"material = {quoted(material)}, thickness = {quoted(thickness)}"


def _unit(asker: Asker, system: UnitSystem, name: str, standing: str, *, tied: bool) -> list[str]:
    usual = _DEFAULTS[system]
    size = answers.length
    depth = asker.ask("Depth, front to back, outside?", usual.depth, size(system, 50.0, 1500.0))
    sheet = _sheet(asker, system, "Sheet for sides and shelves", "birch-plywood", usual.sheet)
    bays = int(asker.ask(
        "How many bays side by side?", "1", answers.whole_number(1, 20),
        "Clear widths between sides and dividers; the same on every level.",
    ))  # fmt: skip
    widths = asker.ask(
        "Clear width of the bay?" if bays == 1 else "Clear widths, one for all or parted by ;",
        usual.width, answers.lengths(system, bays, 50.0, 4000.0),
    )  # fmt: skip
    levels = int(asker.ask("How many levels, from the floor up?", "4",
                           answers.whole_number(1, 20)))  # fmt: skip
    heights = asker.ask(
        "Clear height?" if levels == 1 else "Clear heights from the floor up, one for all or "
        "parted by ;", usual.height, answers.lengths(system, levels, 50.0, 3000.0),
    )  # fmt: skip
    shelf, joins = _shelf_ends(asker, system, bays)
    back = _back(asker, system)
    lines = [
        "[[unit]]",
        f"name = {quoted(name)}",
        f"depth = {quoted(depth)}   # front to back, outside",
        f"panel = {{ {sheet} }}   # everything is cut from it unless said",
        f"shelf = {{ {shelf} }}",
        *joins,
        *back,
        *_held(asker, system, standing, tied=tied),
    ]
    for number in range(levels):
        where = "lowest" if number == 0 else "highest" if number == levels - 1 else ""
        stock = asker.ask(
            f"Level {number + 1}{f' ({where})' if where else ''}: what stands in "
            f"{'it' if bays == 1 else 'its bays'}?",
            "books", answers.contents(bays), _STOCK,
        )  # fmt: skip
        lines += [
            "",
            f"[[unit.level]]   # level {number + 1}, counted from the floor",
            f"height = {quoted(heights[number])}   # clear",
            f"bays = [{', '.join(quoted(width) for width in widths)}]   # clear widths",
            f"contents = {alike(stock)}",
        ]
    return lines


def _shelf_ends(asker: Asker, system: UnitSystem, bays: int) -> tuple[str, list[str]]:
    keys, joins = [], []
    if bays > 1:
        runs = asker.ask(
            "Shelves cut between the dividers, or one panel through over them? (between, through)",
            "between", answers.choice("between", "through"),
        )  # fmt: skip
        keys.append(f'runs = "{runs}"')
    housing = asker.ask(
        "How deep are shelf ends let into the sides? (0 if they only butt against them)",
        _DEFAULTS[system].housing, answers.length(system, 0.0, 100.0),
        "A housing or groove carries the end; a butted end hangs on its screws. As deep as the "
        "side is thick means that the panel lies over the side.",
    )  # fmt: skip
    if units.read(housing, "length") == 0.0:
        joins.append('joins = { shelves = "screws" }   # shelf ends butt against the uprights')
    else:
        keys.append(f"bearing = {quoted(housing)}")
    return ", ".join(keys), joins


def _back(asker: Asker, system: UnitSystem) -> list[str]:
    usual = _DEFAULTS[system]
    fixed = asker.ask(
        "Back? (none, glued, screwed, nailed)", "screwed",
        answers.choice("none", "glued", "screwed", "nailed"),
        "A fixed back keeps the unit from leaning over sideways.",
    )  # fmt: skip
    if fixed == "none":
        return ["# no back: something else has to keep it from leaning over sideways"]
    sheet = _sheet(asker, system, "Back", "birch-plywood", usual.back)
    keys = [sheet, f'fixed = "{fixed}"']
    if fixed != "glued":
        every = asker.ask(
            f"Back: {'screws' if fixed == 'screwed' else 'nails'} how far apart?",
            usual.spacing, answers.length(system, 10.0, 1000.0),
        )  # fmt: skip
        keys.append(f"spacing = {quoted(every)}")
    return [f"back = {{ {', '.join(keys)} }}"]


def _held(asker: Asker, system: UnitSystem, standing: str, *, tied: bool) -> list[str]:
    if standing == "on the wall":
        high = asker.ask("How high above the floor is its underside?", _DEFAULTS[system].underside,
                         answers.length(system, 0.0, 5000.0))  # fmt: skip
        return [
            f"underside = {quoted(high)}   # above the floor",
            "hangs = {}   # say screw, length, heights of the rows, rail: shelfload example "
            "wall-cupboard",
        ]
    what = ("sides", "plinth", "flat")
    base = asker.ask(
        "What does it stand on: its sides, a plinth under sides and dividers, or flat? "
        f"({', '.join(what)})", "sides", answers.choice(*what),
    )  # fmt: skip
    lines = [f'base = "{base}"   # sides, plinth or flat']
    if tied:
        lines.append("restraint = {}   # say screw and length, or a maker's load, and how many")
    return lines


def _shelf(asker: Asker, system: UnitSystem, name: str) -> list[str]:
    usual = _DEFAULTS[system]
    size = answers.length
    depth = asker.ask("Depth, front to back?", usual.depth, size(system, 50.0, 2000.0))
    sheet = _sheet(asker, system, "The shelf", "birch-plywood", usual.sheet)
    count = int(asker.ask("How many spans between supports?", "1", answers.whole_number(1, 20)))
    spans = asker.ask(
        "Clear width between the supports?" if count == 1 else
        "Clear widths between supports, one for all or parted by ;",
        usual.span, answers.lengths(system, count, 50.0, 6000.0),
    )  # fmt: skip
    support = asker.ask("How wide is the support under each end?", usual.support,
                        size(system, 1.0, 500.0))  # fmt: skip
    stock = asker.ask("What stands on it?", "books", answers.contents(count), _STOCK)
    return [
        "[[shelf]]",
        f"name = {quoted(name)}",
        f"depth = {quoted(depth)}   # front to back",
        f"spans = [{', '.join(quoted(span) for span in spans)}]   # clear, between supports",
        f"shelf = {{ {sheet}, bearing = {quoted(support)} }}",
        f"contents = {alike(stock)}",
    ]
