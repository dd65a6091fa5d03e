"""What the README shows is what happens: its commands are run on the demo and their output compared."""

from __future__ import annotations

import json
import re
import shutil
import tomllib
from pathlib import Path
from textwrap import dedent

import pytest
from click.testing import CliRunner
from PIL import Image

from generator.commands import COMMANDS, partway, rasterising
from generator.source.reading import read_library
from tests.commands.test_partway import swapped

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text("utf-8")


def shown(start: str) -> tuple[list[str], str]:
    """The words of the command that begins with `start`, and the output shown under it."""
    blocks = [dedent(block) for block in re.findall(r"(?:^    .*\n|^\n)+", README, flags=re.M)]
    block = next(block for block in blocks if block.strip().startswith(f"$ {start}")).strip()
    command, _, output = block.partition("\n")
    return command.split()[2:], output


def is_shown_by(output: str, example: str) -> bool:
    """Whether the example, in which a line `...` stands for anything, is what was printed."""
    pattern = r"(?:.*\n)*?".join(re.escape(chunk) for chunk in re.split(r"^ *\.\.\. *\n?", example + "\n", flags=re.M))
    return re.match(pattern, output) is not None


def run_in(folder: Path, monkeypatch: pytest.MonkeyPatch, words: list[str]) -> str:
    monkeypatch.chdir(folder)
    return CliRunner().invoke(partway, words).stdout


def test_the_route_in_the_readme_is_the_route(monkeypatch: pytest.MonkeyPatch) -> None:
    words, example = shown("partway route")
    assert is_shown_by(run_in(ROOT, monkeypatch, words), example)


def test_the_score_in_the_readme_is_the_score(monkeypatch: pytest.MonkeyPatch) -> None:
    words, example = shown("partway score")
    assert is_shown_by(run_in(ROOT, monkeypatch, words), example)


def test_what_the_readme_says_of_the_score_holds(monkeypatch: pytest.MonkeyPatch) -> None:
    """Unknown things make ranges, every number has its lines, readings and changes of the design are told."""
    words, example = shown("partway score")
    low, high, exact_low, exact_high = re.findall(r"\d\.\d+", example.partition("R ")[2])[:4]
    asked = [*words, "--as", "json"]
    index = json.loads(run_in(ROOT, monkeypatch, asked))["index"]
    assert (index["low"], index["high"]) == (exact_low, exact_high) and low != high and index["unknown"]
    lines = [line for criterion in index["criteria"] for part in criterion["parts"] for line in part["lines"]]
    assert lines and all(line["rule"]["act"] and line["rule"]["clause"] for line in lines)
    assert any(line["step"] for line in lines) and "not the label" in index["statement"]
    names = {reading["name"]: reading for reading in index["readings"]}
    other = next(effect for effect in index["other_readings"] if effect["high"] != index["high"])
    taken = json.loads(run_in(ROOT, monkeypatch, [*asked, "--reading", f"{other['name']}={other['value']}"]))["index"]
    assert other["name"] in names and taken["high"] == other["high"]
    changed = json.loads(run_in(ROOT, monkeypatch, [*asked, "--if", "front-camera-seat becomes clips"]))
    assert changed["if"]["before"]["low"] == exact_low and changed["if"]["change"] == "front-camera-seat becomes clips"


def test_the_figures_in_the_readme_are_on_the_pages(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    run_in(ROOT, monkeypatch, ["build", "--to", str(tmp_path / "site")])
    folder = tmp_path / "site" / "tarn-5"
    page = (folder / "to-battery.html").read_text("utf-8")
    steps = page.count('<article class="step"')
    assert steps == 7
    assert page.count('class="plan__sheet"') >= steps  # the plan of each step
    assert page.count("stack--step") >= 2 * steps  # pulled apart, out and back
    assert page.count("rail--standing") == steps
    assert "order-map__drawing" in page
    assert 'width="210mm"' in (folder / "tray-to-battery.html").read_text("utf-8")


def test_the_finding_in_the_readme_is_the_finding(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    swapped(Path(shutil.copytree(ROOT / "content", tmp_path / "content")))
    words, example = shown("partway check")
    output = run_in(tmp_path, monkeypatch, words)
    assert is_shown_by(output[output.index("order/behind") :], example), output


def test_the_correction_in_the_readme_means_what_it_says(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shutil.copytree(ROOT / "content", tmp_path / "before")
    swapped(Path(shutil.copytree(ROOT / "content", tmp_path / "content")))
    words, example = shown("partway compare")
    output = run_in(tmp_path, monkeypatch, words)
    assert is_shown_by(output, example), output


def test_what_goes_with_the_film_in_the_readme_is_what_is_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(rasterising, "can_rasterise", lambda: False)
    words, example = shown("partway video")
    listed, _, rest = example.partition("\n$ head -4 ")
    assert run_in(tmp_path, monkeypatch, [*words, "--content", str(ROOT / "content")]) == f"{listed}\n"
    file, _, lines = rest.partition("\n")
    assert (tmp_path / file).read_text("utf-8").split("\n")[:4] == lines.strip().split("\n")
    text = (tmp_path / "tarn-5-to-battery-video" / "description.txt").read_text("utf-8")
    assert len(text) <= 5000 and text.rindex("WARNING:") < text.index("1:15 1. ")


def test_a_published_site_has_what_the_readme_says(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What works from any folder of a host is tried on one in `test_publishing.py`."""
    content = Path(shutil.copytree(ROOT / "content", tmp_path / "content"))
    library = content / "library.yaml"
    kept = [line for line in library.read_text("utf-8").splitlines(True) if not line.startswith(("address:", "sources:"))]
    library.write_text("".join(kept), "utf-8")
    only_with_address = {"404.html", "sitemap.xml", "feed.xml"}
    for words, found in (([], set()), (["--base", "https://bench.example/g/"], only_with_address)):
        run_in(tmp_path, monkeypatch, ["build", "--no-packs", "--to", "site", *words])
        assert {name for name in only_with_address if (tmp_path / "site" / name).is_file()} == found
        page = (tmp_path / "site" / "tarn-5" / "to-battery.html").read_text("utf-8")
        assert ('<link rel="canonical" href="https://bench.example/g/tarn-5/to-battery.html">' in page) is bool(words)
        # Nothing says where sources are: what a step leads to is the form on paper.
        assert page.count('class="step__source"') == page.count('<p class="step__source"><a href="correction.html"') > 0
        assert (tmp_path / "site" / "tarn-5" / "changes.html").is_file()


def test_the_step_file_in_the_readme_is_in_the_demo() -> None:
    example = dedent(README[README.index("    ---\n    title:") : README.index("\nWhat follows from that")])
    step = (ROOT / "content/tarn-5/steps/unplug-battery.md").read_text("utf-8")
    front, prose = example.split("---\n")[1:3]
    assert front in step
    assert prose.split("\n\n")[0].strip() in step


def test_the_two_commands_are_those_promised() -> None:
    blocks = re.findall(r"^    (\S.*)$", README, flags=re.M)
    assert blocks[0] == "python3 -m venv .venv && .venv/bin/pip install . && .venv/bin/partway build"
    assert blocks[1] == "sh tests/run"
    assert (ROOT / "tests/run").is_file()


def test_numbers_in_the_readme_are_the_demos() -> None:
    (device,) = read_library(ROOT / "content").devices
    assert device.device.record is not None
    assert len(device.device.record.order) == 18 and "eighteen steps" in README


def test_a_guide_of_your_own_is_tidy_and_builds(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert "`partway new corvel-2`" in README and "`--yes` asks nothing" in README
    run_in(tmp_path, monkeypatch, ["new", "corvel-2", "--yes"])
    assert run_in(tmp_path, monkeypatch, ["check"]) == "Nothing is wrong in 1 guide.\n"
    assert run_in(tmp_path, monkeypatch, ["tidy", "--look"]) == ""
    assert "1 guide, " in run_in(tmp_path, monkeypatch, ["build"])
    assert (tmp_path / "site" / "schemas" / "anatomy.schema.json").is_file()
    assert '"$schema"' in run_in(tmp_path, monkeypatch, ["schema", "anatomy"])
    assert "on `rules.html`" in README
    assert 'id="order-held"' in (tmp_path / "site" / "rules.html").read_text("utf-8")


def test_every_workflow_named_in_the_readme_is_printed(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "`partway explain --workflow actions`, `pipeline` or `hooks`" in README
    for name in ("actions", "pipeline", "hooks"):
        assert "partway check content --since" in run_in(ROOT, monkeypatch, ["explain", "--workflow", name])


def test_every_command_named_in_the_readme_is_there() -> None:
    assert set(re.findall(r"partway ([a-z]+)", README)) <= set(COMMANDS)


def test_the_top_level_is_exactly_what_it_should_be() -> None:
    listed = {path.name for path in ROOT.iterdir()}
    wanted = {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml"}
    wanted |= {"generator", "content", "themes", "tests", "site", ".ci", ".gitignore"}
    made = {".git", ".venv", ".tests-venv", ".hypothesis", ".pytest_cache", ".ruff_cache", ".mypy_cache", "build", "dist"}
    assert wanted <= listed
    assert listed <= wanted | made


def test_licence_and_version_agree() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    assert project["license"] == "MIT" and "MIT" in README and (ROOT / "LICENSE").read_text("utf-8").startswith("MIT")


def test_the_photo_in_the_readme_can_be_written_so(tmp_path: Path) -> None:
    entry = dedent(README[README.index("    photos:\n") : README.index("\n`focus` is the point")])
    content = Path(shutil.copytree(ROOT / "content", tmp_path / "content"))
    step = content / "tarn-5/steps/unplug-battery.md"
    step.write_text(step.read_text("utf-8").replace("work:\n", f"{entry.rstrip()}\nwork:\n", 1), "utf-8")
    (content / "tarn-5/media").mkdir(exist_ok=True)
    Image.new("RGB", (1800, 1200), "grey").save(content / "tarn-5/media/plug.jpg")
    found = CliRunner().invoke(partway, ["check", str(content), "--as", "json"]).stdout
    assert [each["rule"] for each in json.loads(found)["findings"] if "unplug-battery" in each["file"]] == []


def test_the_stills_of_the_readme_are_asked_for_by_options_that_are_there() -> None:
    said = README[README.index("A finished film becomes") : README.index("## What it does not do")]
    told = CliRunner().invoke(partway, ["stills", "--help"]).stdout
    assert "partway stills tarn-5 --video film.mp4" in said
    assert all(option in told for option in re.findall(r"--[a-z]+", said))
    extras = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["optional-dependencies"]
    assert "[video]" in said and any(each.startswith("av") for each in extras["video"])
