from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

import pytest

from layout.cli import main
from tests.files.builds import BLOCKS, written

ROOT = Path(__file__).parents[1]
CLEAR = BLOCKS.replace("[120, 40, 0]", "[0, 40, 0]")


@dataclass(frozen=True, slots=True)
class Ended:
    code: int
    out: str
    err: str


Run = Callable[..., Ended]


@pytest.fixture
def run(
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
) -> Run:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("COLUMNS", raising=False)

    def ended(*words: str | Path) -> Ended:
        monkeypatch.setattr(sys, "argv", ["case-layout", *map(str, words)])
        with pytest.raises(SystemExit) as exit_:
            main()
        told = capsys.readouterr()
        return Ended(int(exit_.value.code or 0), told.out, told.err)

    return ended


def process(*words: str | Path, **options: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, *map(str, words)],
        capture_output=True,
        text=True,
        check=False,
        cwd=ROOT,
        env={**os.environ, **options},
    )


def test_a_clash_ends_with_1_and_its_sentence(run: Run, tmp_path: Path) -> None:
    ended = run("check", written(tmp_path, BLOCKS))
    assert (ended.code, ended.err) == (1, "")
    assert "the bracket reaches 10.0 mm into the near" in ended.out
    assert ended.out.endswith("two blocks and a bracket: clash (1 clash)\n")
    assert max(map(len, ended.out.splitlines())) <= 80
    assert "\x1b" not in ended.out


def test_nothing_wrong_ends_with_0(run: Run, tmp_path: Path) -> None:
    ended = run("check", written(tmp_path, CLEAR))
    assert (ended.code, ended.err) == (0, "")
    assert ended.out.endswith(": clear (nothing was asked that could fail)\n")


def test_what_is_tight_still_ends_with_0_and_what_is_short_with_1(
    run: Run, tmp_path: Path
) -> None:
    own = "own needs: [{{between: [near, far], need: {}, why: a hand must pass}}]\n"
    loose = CLEAR.replace("at: [270,", "plus minus: [3, 0, 0]\n    at: [270,")
    tight = run("check", written(tmp_path, loose + own.format(38)))
    assert (tight.code, ": tight (1 tight)" in tight.out) == (0, True)
    short = run("check", written(tmp_path, loose + own.format(41)))
    assert (short.code, ": short (1 short)" in short.out) == (1, True)


def test_json_is_one_object_with_the_fixed_keys(run: Run, tmp_path: Path) -> None:
    ended = run("check", "--json", written(tmp_path, BLOCKS))
    told = json.loads(ended.out)
    assert ended.code == 1
    assert list(told) == ["schema", "build", "units", "verdict", "findings"]
    (finding,) = told["findings"]
    assert (finding["a"], finding["b"]) == ("bracket", "near")
    assert finding["rule"] == "no-interference"
    assert finding["overlap"]["mm"] == pytest.approx(10.0, abs=1e-6)


def test_pairs_and_all(run: Run, tmp_path: Path) -> None:
    path = written(tmp_path, BLOCKS)
    told = json.loads(run("check", "--json", "--pairs", "--all", path).out)
    names = [(pair["a"], pair["b"]) for pair in told["pairs"]]
    assert names == [("bracket", "near"), ("bracket", "far"), ("near", "far")]
    assert told["pairs"][2]["gap_mm"] == pytest.approx(40.0)
    assert [f["verdict"] for f in told["findings"]] == ["clash", "clear", "clear"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["headroom", "--part", "x"], "--part: found 'x', which is not in the build; "),
        (["positions", "--move", "x"], "--move: found no part 'x' in the build; "),
        (["explain", "x"], "ID: found no finding 'x' in "),
    ],
)
def test_what_is_not_in_the_build_is_told_with_its_option(
    run: Run, tmp_path: Path, *, words: list[str], told: str
) -> None:
    command, *rest = words
    ended = run(command, written(tmp_path, BLOCKS), *rest)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.startswith(told)
    assert ended.err.endswith("would be right\n")


def test_rules_pick_groups(run: Run, tmp_path: Path) -> None:
    path = written(tmp_path, BLOCKS)
    assert run("check", "--rules", "distance,order", path).code == 1
    assert run("check", "--rules", "holes", path).code == 0


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["check"], "Missing argument"),
        (["chekc"], "No such command"),
        (["check", "--frob", "b.yaml"], "No such option"),
        (["check", "--rules", "distanc", "b.yaml"], "found 'distanc'; of distance,"),
        (["check", "--pairs", "b.yaml"], "--json --pairs would be right"),
        (["check", "--sigma", "0", "b.yaml"], "found '0'; a number from 0.1 to 10"),
        (["check", "--sigma", "x", "b.yaml"], "found 'x'; a number from 0.1 to 10"),
        (["draw", "b.yaml", "--sheet", "A7"], "--sheet: found 'A7'; one of A4, A3"),
        (["explain", "b.yaml"], "Missing argument 'ID'"),
        (["explain", "b.yaml", "1", "-o", "x.bmp"], ".svg, .png, .pdf would be right"),
        (["draw", "b.yaml", "-o", "x.bmp"], ".svg, .png, .pdf or a folder would be"),
        (["sheet", "b.yaml", "-o", "x.svg"], "ends in .pdf or .html or a folder would"),
        (["positions", "b.yaml"], "Missing option '--move'"),
        (["positions", "b.yaml", "--move", "a", "--along", "0:5"], "as 0:60:2, would"),
        (["positions", "b.yaml", "--move", "a", "--along", "5:0:1"], "FROM up to TO"),
        (["positions", "b.yaml", "--move", "a", "--axis", "depth"], "--along beside"),
        (
            ["positions", "b.yaml", "--move", "a", "--along", "0:5:1", "--axis", "x"],
            "one of depth, height, width would be right",
        ),
        (
            ["positions", "b.yaml", "--move", "a", "--move", "b", "--along", "0:5:1"],
            "one part on a stretch would be right",
        ),
        (["draw", "b.yaml", "--compare"], "two builds would be right"),
        (["draw", "b.yaml", "--sheet", "A9"], "one of A4, A3, A2, A1, A0"),
        (["draw", "b.yaml", "--revision", "first"], "at most 2 would be right"),
        (["draw", "b.yaml", "--format", "bmp"], "found 'bmp'; of svg, png, pdf"),
        (["draw", "b.yaml", "b.yaml"], "two builds of one name"),
        (["draw", "b.yaml", "c.yaml", "-o", "x.svg"], "a folder would be right"),
        (["draw", "b.yaml", "-o", "x.svg", "--format", "png"], "a folder would be"),
    ],
)
def test_bad_usage_ends_with_2(run: Run, words: list[str], told: str) -> None:
    ended = run(*words)
    assert (ended.code, ended.out) == (2, "")
    assert told in ended.err


def test_bad_input_ends_with_2_and_a_line_for_each_error(
    run: Run, tmp_path: Path
) -> None:
    path = written(tmp_path, BLOCKS.replace("at:", "att:"))
    ended = run("check", path)
    assert (ended.code, ended.out) == (2, "")
    assert ended.err.splitlines() == [
        f"{path}:{line}: parts.{part}.att: found an unknown key; at would be right"
        for line, part in ((5, "bracket"), (11, "near"), (16, "far"))
    ]
    assert run("check", tmp_path / "none.yaml").err == (
        f"{tmp_path / 'none.yaml'}: found no file; "
        "the name of a build file would be right\n"
    )


def test_drawings_go_to_out_by_the_name_of_the_build(run: Run, tmp_path: Path) -> None:
    ended = run("draw", written(tmp_path, BLOCKS), "--format", "svg")
    assert (ended.code, ended.err) == (1, "")
    assert ended.out.splitlines() == [
        "two blocks and a bracket: clash (1 clash)",
        f"drawn: {Path('out') / 'build.svg'}",
    ]
    assert (tmp_path / "out" / "build.svg").read_text("utf-8").startswith("<?xml")


def test_one_drawing_to_one_file(run: Run, tmp_path: Path) -> None:
    path = written(tmp_path, CLEAR)
    assert run("draw", path, "-o", tmp_path / "a.png").code == 0
    assert (tmp_path / "a.png").read_bytes().startswith(b"\x89PNG")
    assert sorted(each.name for each in tmp_path.iterdir()) == ["a.png", "build.yaml"]


def test_further_sheets_stand_beside_the_first_and_none_is_drawn_over(
    run: Run, tmp_path: Path
) -> None:
    shutil.copytree(ROOT / "cases", tmp_path / "cases")
    build = tmp_path / "cases" / "orchestra-build.yaml"
    assert run("draw", build, "-o", "out").code == 0
    drawn = sorted(each.name for each in (tmp_path / "out").iterdir())
    stem = "orchestra-build"
    count = sum(each.endswith(".svg") for each in drawn)
    further = [f"-{n}{kind}" for n in range(2, count + 1) for kind in (".png", ".svg")]
    assert count > 1
    assert drawn == sorted(f"{stem}{e}" for e in (".pdf", ".png", ".svg", *further))
    assert f">2 of {count}<" in (tmp_path / "out" / f"{stem}-2.svg").read_text("utf-8")
    own = tmp_path / "out" / f"{stem}-3.svg"
    own.write_text("mine")
    whole = run("draw", build, "-o", "out", "--format", "svg", "--sheet", "A0")
    assert f"removed, a sheet of an earlier drawing: out/{stem}-2.svg" in whole.out
    kept = sorted(each.name for each in (tmp_path / "out").glob("*.svg"))
    assert (kept, own.read_text()) == ([f"{stem}-3.svg", f"{stem}.svg"], "mine")
    again = build.with_name(f"{stem}-2.yaml")
    shutil.copy(build, again)
    ended = run("draw", build, again, "-o", "other", "--format", "svg")
    assert ended.code == 2
    assert "one of them a further sheet; another name" in " ".join(ended.err.split())
    assert not (tmp_path / "other").exists()


def test_two_builds_are_compared_on_one_drawing(run: Run, tmp_path: Path) -> None:
    was, now = written(tmp_path, BLOCKS, "was.yaml"), written(tmp_path, CLEAR)
    ended = run("draw", was, now, "--compare", "--format", "svg", "--sheet", "A4")
    assert (ended.code, ended.err) == (0, "")
    assert [each.name for each in (tmp_path / "out").iterdir()] == ["build.svg"]
    assert ">before<" in (tmp_path / "out" / "build.svg").read_text("utf-8")


def test_what_the_title_block_states_is_what_is_asked(run: Run, tmp_path: Path) -> None:
    build, to = written(tmp_path, CLEAR), tmp_path / "a.svg"
    stated = ["--owner", "Shop", "--number", "Q 7", "--revision", "B"]
    people = ["--drawn-by", "Ada", "--approved-by", "Bo"]
    assert run("draw", build, "-o", to, "--date", "2031-02-03", *stated).code == 0
    drawn = to.read_text("utf-8")
    assert all(f">{each}<" in drawn for each in ("2031-02-03", "Shop", "Q 7", "B"))
    assert run("draw", build, "-o", to, "--date", "today", *people).code == 0
    drawn = to.read_text("utf-8")
    day = datetime.now().astimezone().date().isoformat()
    assert all(f">{each}<" in drawn for each in (day, "Ada", "Bo"))


def test_layers_are_drawn_on_request_and_an_unknown_one_is_an_error(
    run: Run, tmp_path: Path
) -> None:
    build = written(tmp_path, CLEAR)
    ended = run("draw", build, "-o", "a.svg", "--layers", "cables")
    assert (ended.code, ended.out) == (2, "")
    assert "--layers: found 'cables'; some of bends, leads, plugs, screws" in ended.err
    assert not (tmp_path / "a.svg").exists()
    assert run("draw", build, "-o", "a.svg", "--layers", "leads, screws").code == 0
    assert ">lead behind the tray<" in (tmp_path / "a.svg").read_text("utf-8")


def test_no_drawing_is_touched_where_one_build_is_bad(run: Run, tmp_path: Path) -> None:
    good = written(tmp_path, BLOCKS, "good.yaml")
    bad = written(tmp_path, "parts: {}", "bad.yaml")
    ended = run("draw", good, bad)
    assert (ended.code, ended.out) == (2, "")
    assert not (tmp_path / "out").exists()


def test_a_page_for_a_quote_is_a_pdf_and_an_html_file(run: Run, tmp_path: Path) -> None:
    ended = run("sheet", written(tmp_path, BLOCKS), "-o", "given", "--quote", "Q-7")
    page, pdf = tmp_path / "given/build-sheet.html", tmp_path / "given/build-sheet.pdf"
    assert ended.code == 1
    assert ended.out.endswith(
        "written: given/build-sheet.pdf\nwritten: given/build-sheet.html\n"
    )
    assert "Q-7" in page.read_text("utf-8")
    assert pdf.read_bytes().startswith(b"%PDF")


def test_no_page_is_written_for_a_bad_build(run: Run, tmp_path: Path) -> None:
    bad = written(tmp_path, "parts: {}")
    assert run("sheet", bad, "-o", "given").code == 2
    assert run("sheet", written(tmp_path, BLOCKS), "-o", "one.pdf").code == 1
    assert (tmp_path / "one.pdf").read_bytes().startswith(b"%PDF")
    assert not (tmp_path / "one.html").exists()
    assert not (tmp_path / "given").exists()


def test_a_folder_that_cannot_be_written_to(run: Run, tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    build = written(tmp_path, BLOCKS)
    ended = run("draw", build, "-o", tmp_path / "file" / "x.svg")
    assert (ended.code, ended.out) == (2, "")
    assert "nothing was touched" in ended.err


@pytest.mark.parametrize("name", ["x" * 300, f"{'x' * 300}.svg"])
def test_a_name_too_long_for_a_file_or_a_folder(
    run: Run, tmp_path: Path, name: str
) -> None:
    ended = run("draw", written(tmp_path, BLOCKS), "-o", tmp_path / name)
    assert (ended.code, ended.out) == (2, "")
    assert "name too long); nothing was touched" in ended.err


def test_positions_of_an_example(run: Run) -> None:
    archive = ROOT / "cases" / "archive-build.yaml"
    told = json.loads(run("positions", archive, "--move", "cage", "--json").out)
    assert list(told) == ["moved", "rows", "clear_mm", "best"]
    assert (told["moved"], told["best"], told["clear_mm"]) == ("cage", "front", [])
    assert [(row["position"], row["verdict"]) for row in told["rows"]] == [
        ("rear", "clash"),
        ("middle", "short"),
        ("front", "clear"),
        ("taken out", "clear"),
    ]
    assert list(told["rows"][0]) == [
        "position",
        "verdict",
        "least_margin_mm",
        "limited_by",
    ]
    ended = run("positions", archive, "--move", "cage", "--move", "supply")
    assert (ended.code, "Best: front, intake down" in ended.out) == (0, True)
    ended = run("positions", archive, "--move", "supply")
    assert (ended.code, "None works; nearest: intake" in ended.out) == (1, True)
    ended = run("positions", archive, "--move", "cagee")
    assert (ended.code, ended.out) == (2, "")
    assert "cage would be right" in ended.err


def test_headroom_of_an_example(run: Run) -> None:
    archive = ROOT / "cases" / "archive-build.yaml"
    told = json.loads(run("headroom", archive, "--part", "supply", "--json").out)
    assert list(told) == ["rows"]
    first, *others = told["rows"]
    # by hand: cage at 212, plugs 25 and their bend 15 before it
    assert first == {
        "part": "supply",
        "dimension": "length",
        "now_mm": 180.0,
        "largest_mm": 172.0,
        "limited_by": ["supply/leads", "cage"],
        "rule": "leads-to-cage",
    }
    assert [row["dimension"] for row in others if "bend" not in row["dimension"]] == [
        f"length, cage {place}" for place in ("rear", "front", "taken out")
    ]
    assert "bend radius of 24-pin" in {row["dimension"] for row in others}
    ended = run("headroom", archive, "--part", "supply")
    assert (ended.code, "180 172 -8.0" in " ".join(ended.out.split())) == (1, True)
    ended = run("headroom", archive, "--part", "cage")
    assert (ended.code, ended.out) == (2, "")
    assert "one of memory, cooler, supply, front fans would be right" in ended.err


def test_headroom_is_drawn_on_as_many_sheets_as_it_takes(
    run: Run, tmp_path: Path
) -> None:
    build = ROOT / "cases" / "audiobook-build.yaml"
    run("headroom", build, "-o", "room.svg")
    drawn = sorted(each.name for each in tmp_path.iterdir())
    assert drawn[:1] == ["room-2.svg"] or drawn == ["room.svg"]
    assert ">Sizes of parts<" in (tmp_path / "room.svg").read_text("utf-8")
    ended = run("headroom", build, "-o", "room.doc")
    assert ended.code == 2
    assert "-o" in ended.err


def test_a_stretch_of_an_example(run: Run) -> None:
    archive = ROOT / "cases" / "archive-build.yaml"
    words = ("positions", archive, "--move", "cage", "--along", "-10:90:20")
    told = json.loads(run(*words, "--json").out)
    assert [row["position"] for row in told["rows"]] == [-10, 10, 30, 50, 70, 90]
    ((low, high),) = told["clear_mm"]
    # by hand: the leads lack 8.0 mm now, the front fans stand 79 mm beyond their need
    assert (low, high) == pytest.approx((8.0, 79.0), abs=1e-5)
    assert told["best"] == 50
    ended = run(*words, "-o", "cage.svg")
    assert Path("cage.svg").read_text("utf-8").startswith("<?xml")
    assert "Clear: 8.00 to 79.00 mm." in ended.out
    assert "its rail runs along depth" in " ".join(ended.out.split())


def test_a_finding_is_explained_and_drawn(run: Run, tmp_path: Path) -> None:
    own = "own needs: [{between: [near, far], need: 38, why: a hand must pass}]\n"
    loose = CLEAR.replace("at: [270,", "plus minus: [3, 0, 0]\n    at: [270,")
    path = written(tmp_path, loose + own)
    told = json.loads(run("explain", path, "1", "--json", "-o", "chain.svg").out)
    assert (told["id"], told["verdict"]) == ("own-need:near:far", "tight")
    (figure,) = (each for each in told["chain"] if each["plus_minus_mm"])
    assert sum(each["adds_mm"] for each in told["chain"]) == pytest.approx(40)
    assert (figure["part"], figure["share_of_variance"]) == ("far", 1.0)
    assert told["probability_under_need"] == pytest.approx(0.02275, abs=1e-5)
    assert (tmp_path / "chain.svg").exists()
    ended = run("explain", path, "own-need:near:far")
    assert (ended.code, "± 3 by root sum of squares" in ended.out) == (0, True)
    ended = run("explain", path, "nothing")
    assert (ended.code, "would be right" in ended.err) == (2, True)


def test_a_finding_without_a_length_is_not_drawn(run: Run, tmp_path: Path) -> None:
    path = ROOT / "cases" / "mapping-build.yaml"
    ended = run("explain", path, "board-on-standoffs:board", "-o", "chain.svg")
    assert ended.code == 2
    assert ended.err.startswith("-o: found board-on-standoffs:board, which has no len")
    assert not (tmp_path / "chain.svg").exists()


def test_sigma_and_worst_case_change_the_tolerance(run: Run, tmp_path: Path) -> None:
    own = "own needs: [{between: [near, far], need: 38, why: a hand must pass}]\n"
    loose = CLEAR.replace("at: [270,", "plus minus: [3, 0, 0]\n    at: [270,")
    path = written(tmp_path, loose + own)
    for words, mm in ((["--sigma", "1"], 1.0), (["--worst-case"], 3.0)):
        (finding,) = json.loads(run("check", path, "--json", *words).out)["findings"]
        assert finding["tolerance_mm"] == pytest.approx(mm)


@pytest.mark.parametrize("words", [["--help"], ["check", "--help"], ["draw", "--help"]])
def test_help(run: Run, words: list[str]) -> None:
    ended = run(*words)
    assert ended.code == 0
    assert ended.out.startswith("Usage: case-layout")


def test_the_module_runs_as_the_command_does(tmp_path: Path) -> None:
    done = process("-m", "layout", "--version")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("case-layout ")
    done = process("-m", "layout", "check", written(tmp_path, "parts: {}"))
    assert (done.returncode, done.stdout) == (2, "")
    assert "Traceback" not in done.stderr


_LOADED = """
import sys
sys.argv = ["case-layout", "check", *sys.argv[1:]]
from layout.cli import main
try:
    main()
finally:
    print(*sorted({name.partition(".")[0] for name in sys.modules}), file=sys.stderr)
"""


@pytest.mark.parametrize(("words", "table"), [([], {"rich"}), (["--json"], set())])
def test_check_loads_what_it_needs_and_no_more(
    tmp_path: Path, words: list[str], table: set[str]
) -> None:
    done = process("-c", _LOADED, *words, written(tmp_path, BLOCKS))
    loaded = set(done.stderr.split())
    assert done.returncode == 1
    assert {"shapely", "yaml", "pydantic", "typer"} <= loaded
    assert not {"matplotlib", "scipy", "hypothesis"} & loaded
    assert {"rich"} & loaded == table


def test_a_reader_who_leaves_early_is_no_error(tmp_path: Path) -> None:
    path = written(tmp_path, BLOCKS)
    command = f"'{sys.executable}' -m layout check --json --pairs '{path}' | exec true"
    done = subprocess.run(
        ["/bin/sh", "-c", command], capture_output=True, check=False, cwd=ROOT
    )
    assert done.stderr == b""


def test_output_that_cannot_show_a_letter_shows_its_number(tmp_path: Path) -> None:
    path = written(tmp_path, BLOCKS.replace("two blocks", "zwölf blocks"))
    done = process("-m", "layout", "check", path, PYTHONIOENCODING="ascii")
    assert (done.returncode, done.stderr) == (1, "")
    assert r"zw\xf6lf blocks" in done.stdout
