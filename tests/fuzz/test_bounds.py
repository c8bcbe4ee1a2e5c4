"""Files that are too long, too deep or no files at all: a refusal or a whole report, in time."""

from __future__ import annotations

import json
import os
import resource
import subprocess
import sys
import threading
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
DEEP = bool(os.environ.get("HOSTILE_EXAMPLES"))  # the sizes that take long as well
SECONDS, BYTES = 60, 1_500_000_000  # of processor time and of address space
SHELF = (
    '[[shelf]]\nname = "{}"\ndepth = "300 mm"\nspans = ["{} mm"]\n'
    'shelf = {{ material = "birch-plywood", thickness = "18 mm" }}\n'
    'contents = {{ load = "9 kg" }}\n'
)
UNIT = (
    '[[unit]]\nname = "{}"\ndepth = "300 mm"\n'
    'panel = {{ material = "birch-plywood", thickness = "18 mm" }}\n'
)
LEVEL = '[[unit.level]]\nheight = "300 mm"\nbays = [{}]\ncontents = {{ load = "9 kg" }}\n'
GOOD = SHELF.format("ledge", 700)


def limited():
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    resource.setrlimit(resource.RLIMIT_AS, (BYTES, BYTES))


def run(*arguments, given=b"", **more):
    found = subprocess.run(
        [sys.executable, "-m", "shelfload", *arguments],
        input=given,
        capture_output=True,
        preexec_fn=limited,
        env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONWARNINGS": "error"},
        check=False,
        **more,
    )
    told = found.stderr.decode()
    assert "Traceback" not in told
    return found.returncode, found.stdout.decode(), told


def refused(status, out, told):
    assert status == 2, told
    assert not out
    assert "mistake" in told
    assert ": found " in told
    assert len(told) < 100_000


def units(count, levels, bays):
    level = LEVEL.format(", ".join(['"500 mm"'] * bays))
    return "".join(UNIT.format(f"unit {n}") + level * levels for n in range(count))


TOO_MUCH = {
    "junk": os.urandom(1_000_000),
    "junk in ASCII": bytes(range(32, 127)) * 10_000,
    "larger than allowed": GOOD.encode() + b"#" * 2_000_000,
    "unknown keys": "".join(f"key{n} = {n}\n" for n in range(60_000 if DEEP else 5000)).encode(),
    "brackets": b"a = " + b"[" * 10_000 + b"]" * 10_000,
    "inline tables": b"a = " + b"{a=" * 10_000 + b"1" + b"}" * 10_000,
    "a dotted key": ".".join(["a"] * 10_000).encode() + b" = 1",
    "a dotted key in a unit": b"[[unit]]\n" + ".".join(["a"] * 10_000).encode() + b" = 1",
    "a dotted header": b"[" + ".".join(["unit"] * 10_000).encode() + b"]",
    "a hundred levels of lists": GOOD.encode() + b"contents = " + b"[" * 90 + b"]" * 90,
    "a long name": SHELF.format("n" * 100_000, 700).encode(),
    "a long key": b"k" * 100_000 + b" = 1",
    "a long unit": SHELF.format("ledge", "7" + "0" * 100_000).encode(),
    "a long whole number": b"title = " + b"9" * 100_000,
    "a long material": GOOD.replace("birch-plywood", "b" * 100_000).encode(),
    "exponents": GOOD.replace("700 mm", "1e308 mm").encode(),
    "small exponents": GOOD.replace("700 mm", "1e-308 mm").encode(),
    "powers": GOOD.replace("700 mm", "9**9**9 mm").encode(),
    "bare exponents": GOOD.replace('"700 mm"', "1e308").encode(),
    "bare inf": GOOD.replace('"700 mm"', "inf").encode(),
    "bare nan": GOOD.replace("9 kg", "1 kg").replace('"1 kg"', "nan").encode(),
    "NUL bytes": GOOD.encode() + b"\x00" * 100,
    "an escaped NUL in a name": GOOD.replace("ledge", r"\u0000").encode(),
    "an escaped NUL in a file name": b'materials_from = "a\\u0000b"\n' + GOOD.encode(),
    "a device as materials": b'materials_from = "/dev/zero"\n' + GOOD.encode(),
    "a folder as contents": b'contents_from = "/"\n' + GOOD.encode(),
    "a lone surrogate": GOOD.replace("ledge", "\ud800").encode("utf-8", "surrogatepass"),
    "UTF-16": GOOD.encode("utf-16"),
    "UTF-32": GOOD.encode("utf-32"),
    "10,000 shelves": "".join(SHELF.format(f"s{n}", 700) for n in range(10_000)).encode(),
    "10,000 levels": units(1, 10_000, 1).encode(),
    "10,000 bays": units(50, 10, 20).encode(),
    "10,000 units": units(10_000, 1, 1).encode(),
    "10,000 lengths": GOOD.replace('"700 mm"', ",".join(['"700 mm"'] * 10_000)).encode(),
}


@pytest.mark.parametrize("name", TOO_MUCH)
def test_what_is_too_much_is_refused_with_its_place(name, tmp_path):
    path = tmp_path / "description.toml"
    path.write_bytes(TOO_MUCH[name])
    refused(*run("check", str(path)))


@pytest.mark.parametrize("name", ["junk", "larger than allowed", "UTF-16", "brackets"])
def test_standard_input_is_refused_likewise(name):
    refused(*run("check", "-", given=TOO_MUCH[name]))


GENEROUS = {
    "shelves": ("".join(SHELF.format(f"s{n}", 300 + n) for n in range(300)), 300),
    "a tower": (units(1, 100, 1), 101),
}
if DEEP:
    GENEROUS |= {
        "as many shelves as allowed": (
            "".join(SHELF.format(f"s{n}", 300 + n) for n in range(1000)),
            1000,
        ),
        "as many bays as allowed": (units(50, 2, 5), 150),
        "a wide unit": (units(1, 1, 100), 2),
        "one frame that is too large": (units(1, 20, 25), 21),
    }


@pytest.mark.parametrize("name", GENEROUS)
def test_hundreds_of_shelves_are_all_answered(name, tmp_path):
    text, count = GENEROUS[name]
    path = tmp_path / "description.toml"
    path.write_text(text, encoding="utf-8")
    status, out, told = run("check", str(path), "--format", "json")
    assert status in (0, 1), told
    places = {(one["place"]["unit"], one["place"]["part"]) for one in json.loads(out)["checks"]}
    assert len([part for _, part in places if not part.startswith("level")]) >= count


@pytest.mark.parametrize("ending", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_ways_of_saving_text_are_all_read(ending, mark, tmp_path):
    path = tmp_path / "description.toml"
    path.write_bytes(mark + GOOD.replace("\n", ending).encode())
    status, out, _ = run("check", str(path))
    assert status == 0
    assert "ledge" in out
    assert run("check", "-", given=path.read_bytes())[0] == 0


@pytest.mark.parametrize("place", ["/", "/dev/zero", "/dev/null", "nowhere", "", "\udcff"])
def test_what_is_no_file_is_refused(place):
    refused(*run("check", place))


def test_pipe_is_read_like_a_file(tmp_path):
    path = tmp_path / "pipe"
    os.mkfifo(path)
    writer = threading.Thread(target=path.write_text, args=(GOOD,))
    writer.start()
    status, out, _ = run("check", str(path))
    writer.join()
    assert status == 0
    assert "ledge" in out


@pytest.mark.skipif(os.geteuid() == 0, reason="root reads every file")
def test_file_that_may_not_be_read_is_refused(tmp_path):
    path = tmp_path / "description.toml"
    path.write_text(GOOD)
    path.chmod(0)
    refused(*run("check", str(path)))


ROW = "600 mm,300 mm,18 mm,1\n"
HEAD = "length,width,thickness,count\n"
LISTS = {
    "junk": os.urandom(1_000_000),
    "a long cell": (HEAD + "6" * 1_000_000).encode(),
    "a long header": ("x" + " " * 120_000 + "x,width\n" + ROW).encode(),
    "a long word": ("l" * 120_000 + ",width\n" + ROW).encode(),
    "an open quote": (HEAD + '"' + "x" * 900_000).encode(),
    "bad rows": (HEAD + "a,b,c,d\n" * (100_000 if DEEP else 5000)).encode(),
    "NUL bytes": (HEAD + "\x00").encode(),
    "UTF-16": HEAD.encode("utf-16"),
}


@pytest.mark.parametrize("name", LISTS)
def test_supplier_list_that_is_too_much_is_refused(name, tmp_path):
    path, listed = tmp_path / "description.toml", tmp_path / "list.csv"
    path.write_text(GOOD, encoding="utf-8")
    listed.write_bytes(LISTS[name])
    status, out, told = run("panels", str(path), "--compare", str(listed))
    assert status == 2, told
    assert not out
    assert ": found " in told


def test_long_supplier_list_is_compared(tmp_path):
    path, listed = tmp_path / "description.toml", tmp_path / "list.csv"
    path.write_text(GOOD, encoding="utf-8")
    listed.write_text(HEAD + ROW * (20_000 if DEEP else 1000))
    assert run("panels", str(path), "--compare", str(listed))[0] == 1
