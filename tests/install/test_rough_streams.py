"""Streams that are closed, full, left, or of another encoding; no terminal, no TERM."""

from __future__ import annotations

import json
import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest
from every_command import ANSWERS, SHELF, STORE, lay_out

import shelfload

ROOT = Path(shelfload.__file__).parents[1]
NARROW = (
    {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
    {"PYTHONIOENCODING": "ascii"},
    {"PYTHONIOENCODING": "cp1252:strict"},
)
PROGRAM = (sys.executable, "-m", "shelfload")
TITLE = "Papierlager Größe 2 – Ångström"


def start(*arguments, env=None, **streams):
    kept = {name: value for name, value in os.environ.items() if not name.startswith("PYTHONIO")}
    return subprocess.Popen(
        [*PROGRAM, *arguments],
        env={**kept, "PYTHONPATH": str(ROOT), "COLUMNS": "80", **(env or {})},
        **streams,
    )


def run(*arguments, stdin=b"", **options):
    pipes = dict.fromkeys(("stdin", "stdout", "stderr"), subprocess.PIPE)
    process = start(*arguments, **pipes, **options)
    out, err = process.communicate(stdin, timeout=120)
    assert b"Traceback" not in err
    assert b"Exception ignored" not in err
    return process.returncode, out, err.decode("utf-8")


def shell(command, cwd, **env):
    """Run by a shell, which can close a stream and leave a pipe."""
    done = subprocess.run(
        ["sh", "-c", command.replace("shelfload", " ".join(PROGRAM))],
        cwd=cwd,
        env={**os.environ, "PYTHONPATH": str(ROOT), **env},
        capture_output=True,
        check=False,
        timeout=120,
    )
    assert b"Traceback" not in done.stderr
    assert b"Exception ignored" not in done.stderr
    return done.returncode, done.stdout.decode(), done.stderr.decode()


@pytest.fixture
def folder(tmp_path):
    return lay_out(tmp_path)


# ---------------------------------------------------------------- encodings


@pytest.mark.parametrize("env", NARROW, ids=str)
def test_output_to_a_pipe_is_utf_8_whatever_the_locale(folder, env):
    status, out, err = run("panels", "store.toml", cwd=folder, env=env)
    assert (status, err) == (0, "")
    assert out.decode("utf-8").startswith(TITLE)


def test_json_to_a_pipe_is_utf_8_whatever_the_locale(folder):
    status, out, _ = run("check", "store.toml", "--format", "json", cwd=folder, env=NARROW[1])
    assert status == 1
    assert json.loads(out.decode("utf-8"))["title"] == TITLE


@pytest.mark.parametrize(
    ("env", "mark"), list(zip(NARROW, (b"", b"\xef\xbb\xbf", b""), strict=True)), ids=str
)
def test_description_from_a_pipe_is_utf_8_whatever_the_locale(folder, env, mark):
    status, out, err = run(
        "panels", "-", cwd=folder, env=env, stdin=mark + STORE.replace("\n", "\r\n").encode()
    )
    assert (status, err) == (0, "")
    assert "étagère" in out.decode("utf-8")


@pytest.mark.parametrize("encoding", ["latin-1", "utf-16"])
def test_description_in_another_encoding_is_refused_in_words(folder, encoding):
    text = STORE.replace("–", "-").encode(encoding)
    for name, stdin in (("-", text), ("other.toml", b"")):
        (folder / "other.toml").write_bytes(text)
        status, out, err = run("check", name, cwd=folder, stdin=stdin)
        assert (status, out) == (2, b"")
        assert "text that is not UTF-8" in err


def test_answers_in_another_encoding_are_refused_in_words(folder):
    status, out, err = run("new", "-", cwd=folder, stdin=ANSWERS.encode("latin-1"))
    assert (status, out) == (2, b"")
    assert "text that is not UTF-8" in err


def test_mistakes_are_told_on_an_ascii_terminal(folder):
    # what the terminal can't show is escaped
    master, slave = pty.openpty()
    (folder / "bad.toml").write_text('title = "ok"\n"größe" = 1\n', encoding="utf-8")
    env = {**NARROW[1], "TERM": "dumb"}
    process = start(
        "check", "bad.toml", cwd=folder, env=env, stdin=slave, stdout=slave, stderr=slave
    )
    os.close(slave)
    seen = b""
    try:
        while block := os.read(master, 4096):
            seen += block
    except OSError:  # the far end of a terminal is closed so on Linux
        pass
    os.close(master)
    assert process.wait(60) == 2
    assert seen.isascii()
    assert b"gr" in seen
    assert b"Traceback" not in seen


# ---------------------------------------------------------------- closed, full, left


@pytest.mark.parametrize(
    ("command", "status"),
    [
        pytest.param("shelfload check store.toml >&-", 1, id="output closed"),
        pytest.param("shelfload example >&- 2>&-", 0, id="output and errors closed"),
        pytest.param("shelfload check none.toml >&- 2>&-", 2, id="mistake nobody sees"),
        pytest.param("shelfload panels store.toml <&-", 0, id="input closed, not needed"),
    ],
)
def test_closed_streams_change_no_status(folder, command, status):
    assert shell(command, folder)[0] == status


def test_file_is_written_with_all_streams_closed(folder):
    status, _, _ = shell("shelfload draw store.toml --out o.svg <&- >&- 2>&-", folder)
    assert status == 0
    assert (folder / "o.svg").read_text(encoding="utf-8").rstrip().endswith("</svg>")


@pytest.mark.parametrize("command", ["check -", "new made.toml"])
def test_closed_input_is_an_empty_one(folder, command):
    status, _, err = shell(f"shelfload {command} <&-", folder)
    assert status == 2
    assert "1 mistake" in err
    assert not (folder / "made.toml").exists()


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
@pytest.mark.parametrize("command", ["example", "schema"])
def test_full_disk_is_told_and_is_no_fault_of_ours(folder, command):
    status, _, err = shell(f"shelfload {command} > /dev/full", folder)
    assert status == 2
    assert err == "shelfload: standard output: No space left on device\n"


@pytest.mark.parametrize("command", ["schema", "example", "--help"])
def test_reader_of_a_pipe_may_leave(folder, command):
    # less than a buffer, and more: the first is noticed only when it is flushed
    status, out, err = shell(f"{{ shelfload {command}; echo $? >&2; }} | true", folder)
    assert (status, out) == (0, "")
    assert err.strip() in ("0", "1")


# ---------------------------------------------------------------- no terminal


def test_report_is_the_same_without_terminal_and_term(folder):
    plain = run("shelf", *SHELF, cwd=folder)
    for env in ({"TERM": "dumb"}, {"TERM": ""}):
        assert run("shelf", *SHELF, cwd=folder, env=env) == plain
    assert b"\x1b" not in plain[1]


# ---------------------------------------------------------------- Windows editors


@pytest.mark.parametrize("bom", [False, True], ids=["plain", "BOM"])
@pytest.mark.parametrize("newline", ["\n", "\r\n"], ids=["LF", "CRLF"])
def test_every_file_is_read_as_any_editor_leaves_it(tmp_path, monkeypatch, capsys, bom, newline):
    from shelfload.cli import main

    monkeypatch.chdir(lay_out(tmp_path, bom=bom, newline=newline))
    assert main(["panels", "store.toml", "--compare", "order.csv"]) == 1
    seen = capsys.readouterr()
    assert seen.err == ""
    assert "étagère" in seen.out
    assert "Türen" in seen.out  # the supplier's own word, from his CSV
    assert main(["check", "store.toml", "--format", "json"]) == 1
    checks = json.loads(capsys.readouterr().out)["checks"]
    assert any(check["question"] == "sag after years" and check["value"] for check in checks)


def test_answers_with_windows_line_ends_are_read(tmp_path):
    status, out, err = run("new", "-", cwd=tmp_path, stdin=ANSWERS.replace("\n", "\r\n").encode())
    assert status == 0, err
    assert 'name = "Größe 2"' in out.decode("utf-8")


@pytest.mark.parametrize(
    "command",
    [
        ("draw", "store.toml"),
        ("labels", "store.toml"),
        ("panels", "store.toml", "--format", "csv"),
        ("check", "store.toml", "--format", "html"),
        ("check", "store.toml", "--format", "markdown"),
    ],
    ids=lambda command: "-".join(command),
)
def test_written_files_have_one_kind_of_line_end(folder, monkeypatch, capsys, command):
    from shelfload.cli import main

    monkeypatch.chdir(folder)
    if command[0] == "panels":
        assert main(command) == 0
        content = capsys.readouterr().out.encode()
    else:
        assert main([*command, "--out", "made"]) in (0, 1)
        content = (folder / "made").read_bytes()
    assert b"\r" not in content
    assert content.endswith(b"\n")
    assert not content.startswith(b"\xef\xbb\xbf")
    content.decode("utf-8")
