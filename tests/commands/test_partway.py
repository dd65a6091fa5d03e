"""The commands as a person uses them: on good and broken content, with the exit status they promise."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from io import BytesIO
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from PIL import Image

from generator.commands import partway
from generator.commands.mending import OLD
from tests.commands.test_site_folder import contents

DEMO = Path(__file__).parents[2] / "content"
DEVICE = "tarn-5"


def run(*arguments: str | Path) -> Result:
    result = CliRunner().invoke(partway, [str(argument) for argument in arguments])
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    return Path(shutil.copytree(DEMO, tmp_path / "content"))


def edit(file: Path, old: str, new: str) -> None:
    text = file.read_text("utf-8")
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file}"
    file.write_text(text.replace(old, new), "utf-8")


def swapped(demo: Path) -> Path:
    """The demo with the battery unplugged before the cover over its plug is off."""
    device = demo / DEVICE / "device.yaml"
    lines = device.read_text("utf-8").splitlines(keepends=True)
    plug = next(n for n, line in enumerate(lines) if line.strip() == "- unplug-battery")
    cover = next(n for n, line in enumerate(lines) if line.strip() == "- lift-upper-cover")
    lines.insert(cover, lines.pop(plug))
    device.write_text("".join(lines), "utf-8")
    return demo


# --- check ---


def test_check_finds_nothing_wrong_with_the_demo() -> None:
    result = run("check", DEMO)
    assert (result.exit_code, result.stdout) == (0, "Nothing is wrong in 1 guide.\n")


def test_an_impossible_order_is_told_with_place_reason_and_mend(demo: Path) -> None:
    result = run("check", swapped(demo))
    assert result.exit_code == 1
    assert f"order/behind  {DEVICE}/steps/unplug-battery.md:5:11\n" in result.stdout
    assert "cannot be reached yet" in result.stdout
    assert 'Move "unplug-battery" after "lift-upper-cover"' in result.stdout


def test_check_as_json_is_one_sorted_document(demo: Path) -> None:
    edit(demo / DEVICE / "steps" / "open-back.md", "title: Warm", "titel: Warm")
    result = run("check", swapped(demo), "--as", "json")
    document = json.loads(result.stdout)
    assert document["version"] == 1
    keys = [(f["file"], f["line"], f["column"], f["rule"]) for f in document["findings"]]
    assert keys == sorted(keys)
    assert {f["rule"] for f in document["findings"]} >= {"file/key"}
    assert document["devices"][DEVICE]["errors"] == sum(f["level"] == "error" for f in document["findings"])


def test_mending_moves_the_step_and_keeps_the_old_text(demo: Path) -> None:
    device = swapped(demo) / DEVICE / "device.yaml"
    before = device.read_text("utf-8")
    result = run("check", demo, "--mend")
    assert result.exit_code == 0, result.output
    assert "+  - lift-upper-cover\n   - unplug-battery\n-  - lift-upper-cover\n" in result.stderr
    assert (device.parent / f".{device.name}{OLD}").read_text("utf-8") == before
    assert run("check", demo).exit_code == 0


def test_only_one_device_can_be_asked_for(demo: Path) -> None:
    assert run("check", demo, "--only", DEVICE).exit_code == 0
    result = run("check", demo, "--only", "tarn-6")
    assert result.exit_code == 2
    assert DEVICE in result.stderr


def test_a_folder_that_is_not_there_is_wrong_use(tmp_path: Path) -> None:
    for command in ("check", "build"):
        result = run(command, tmp_path / "nothing")
        assert result.exit_code == 2
        assert "nothing" in result.stderr
        assert "Traceback" not in result.output


# --- build ---


def test_build_writes_a_site_and_says_where(demo: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    result = run("build", demo, "--to", site)
    assert result.exit_code == 0
    assert result.stdout.startswith("1 guide, ") and str(site / "index.html") in result.stdout
    assert (site / DEVICE / "to-battery.html").is_file()


def test_a_guide_with_errors_is_refused_and_the_others_published(demo: Path, tmp_path: Path) -> None:
    shutil.copytree(demo / DEVICE, demo / "good-twin")
    swapped(demo)
    site = tmp_path / "site"
    result = run("build", demo, "--to", site)
    assert result.exit_code == 1
    assert f"Not published: {DEVICE}." in result.stderr and "order/behind" in result.stderr
    assert (site / "good-twin" / "index.html").is_file()
    assert not (site / DEVICE).exists()


def test_nothing_to_publish_leaves_the_old_site(demo: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    assert run("build", demo, "--to", site).exit_code == 0
    index = (site / "index.html").read_bytes()
    result = run("build", swapped(demo), "--to", site)
    assert result.exit_code == 1
    assert "as it was" in result.stderr
    assert (site / "index.html").read_bytes() == index


def test_the_number_of_processes_changes_no_byte(demo: Path, tmp_path: Path) -> None:
    for name in ("b", "c", "d", "e"):
        shutil.copytree(demo / DEVICE, demo / name)
    for jobs in ("1", "2"):
        assert run("build", demo, "--to", tmp_path / jobs, "--jobs", jobs).exit_code == 0
    assert contents_in_bytes(tmp_path / "1") == contents_in_bytes(tmp_path / "2")


def contents_in_bytes(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_the_order_of_hashes_changes_no_byte(tmp_path: Path) -> None:
    sites = []
    for seed in ("0", "4242"):
        site = tmp_path / seed
        command = [sys.executable, "-m", "generator", "build", str(DEMO), "--to", str(site)]
        environment = {"PYTHONHASHSEED": seed, "PATH": "/usr/bin:/bin", "TZ": "Asia/Kolkata", "LC_ALL": "C"}
        subprocess.run(command, check=True, capture_output=True, env=environment, cwd=DEMO.parent)
        sites.append(contents_in_bytes(site))
    assert sites[0] == sites[1]


def with_photo(demo: Path, data: bytes | None = None) -> Path:
    step = demo / DEVICE / "steps" / "unplug-battery.md"
    marks = "marks: [{at: [0.5, 0.5], joint: battery-plug}]"
    edit(step, "work:\n", f"photos:\n  - {{file: plug.jpg, alt: The plug from above., {marks}}}\nwork:\n")
    media = demo / DEVICE / "media"
    media.mkdir()
    if data is None:
        Image.new("RGB", (120, 80), "grey").save(media / "plug.jpg", comment=b"taken at home")
    else:
        (media / "plug.jpg").write_bytes(data)
    return demo


def test_a_photo_is_shown_with_its_mark_and_without_what_the_camera_wrote(demo: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    result = run("build", with_photo(demo), "--to", site)
    assert result.exit_code == 0, result.output
    assert b"taken at home" not in (site / DEVICE / "media" / "plug.jpg").read_bytes()
    assert "The plug from above." in (site / DEVICE / "guide.html").read_text("utf-8")


def test_a_photo_that_is_none_is_named_and_the_guide_not_published(demo: Path, tmp_path: Path) -> None:
    result = run("build", with_photo(demo, b"no photo at all"), "--to", tmp_path / "site")
    assert result.exit_code == 1
    assert 'The photo "plug.jpg" is no JPEG' in result.stderr
    assert "media/plug.jpg is no JPEG" not in result.stderr  # told once
    checked = run("check", demo)
    assert checked.exit_code == 1 and "media/unusable" in checked.stdout
    assert contents(tmp_path / "site") == {} if (tmp_path / "site").exists() else True


def test_a_photo_that_is_cut_off_behind_its_head_is_told_by_build(demo: Path, tmp_path: Path) -> None:
    whole = BytesIO()
    Image.effect_noise((200, 200), 90).save(whole, "PNG")
    result = run("build", with_photo(demo, whole.getvalue()[:2000]), "--to", tmp_path / "site")
    assert result.exit_code == 1
    assert f"{DEVICE}/media/plug.jpg cannot be opened, perhaps it is cut off" in result.stderr


# --- route ---


def test_route_prints_out_and_back() -> None:
    result = run("route", DEVICE, "battery", "--content", DEMO)
    assert result.exit_code == 0
    out, back = result.stdout.split("\nBack\n")
    assert out.splitlines()[0] == "Veldrun Tarn 5: to the battery"
    assert back.splitlines()[0].split()[:3] == ["8", "step", "7"]


def test_route_as_json_has_the_fields_promised() -> None:
    document = json.loads(run("route", DEVICE, "charging-port", "battery", "--content", DEMO, "--as", "json").stdout)
    assert list(document) == [
        "version", "device", "parts", "possible", "optimal", "steps", "back", "actions", "minutes",
        "tool_changes", "turns", "safety", "licensed", "necessary", "alternatives", "blocked",
    ]  # fmt: skip
    assert document["parts"] == ["charging-port", "battery"]
    assert document["back"] == document["steps"][::-1]
    assert set(document["necessary"]) <= set(document["steps"])
    assert (document["possible"], document["optimal"], document["blocked"]) == (True, True, [])


def test_no_way_is_told_with_what_is_missing(demo: Path) -> None:
    device = demo / DEVICE / "device.yaml"
    edit(device, "  - unplug-battery\n", "")
    result = run("route", DEVICE, "main-board", "--content", demo)
    assert result.exit_code == 1
    assert "There is no way to the main board" in result.stdout
    assert "battery plug" in result.stdout
    document = json.loads(run("route", DEVICE, "main-board", "--content", demo, "--as", "json").stdout)
    assert document["possible"] is False
    assert document["blocked"][0]["part"] == "main-board" and document["blocked"][0]["why"]


def test_a_route_stops_where_licensed_practice_begins() -> None:
    shelf = Path(__file__).parents[1] / "pages" / "shelf"
    result = run("route", "heater", "filter", "--content", shelf)
    assert result.stdout.splitlines()[1] == "3 of 4 steps, then it stops"
    assert "Lift out the fan" in result.stdout
    out = result.stdout.partition("\nBack\n")[0]
    assert 'Stop. The next step, "Take out the filter", is for licensed practice only: mains filter.' in out
    assert "It carries mains voltage and stores a charge." in out and "  4  " not in out
    assert result.stdout.count("Take out the filter") == 1 and "Screws: 4 out, 4 back" in result.stdout
    document = json.loads(run("route", "heater", "filter", "--content", shelf, "--as", "json").stdout)
    assert (document["licensed"]["step"], document["licensed"]["part"]) == ("lift-filter", "filter")
    assert json.loads(run("route", "heater", "fan", "--content", shelf, "--as", "json").stdout)["licensed"] is None


def test_a_route_through_what_cannot_be_read_says_where_to_look(demo: Path) -> None:
    (demo / DEVICE / "anatomy.yaml").write_text("parts: [", "utf-8")
    result = run("route", DEVICE, "battery", "--content", demo)
    assert result.exit_code == 2
    assert f"`partway check --only {DEVICE}` says what." in result.stderr


def test_a_folder_that_cannot_be_a_guide_is_told_to_be_renamed(demo: Path) -> None:
    (demo / DEVICE).rename(demo / "Tarn 5")
    result = run("check", demo)
    assert '"Tarn 5" cannot be followed' in result.stdout and "Give it another name." in result.stdout


def test_a_link_that_leaves_the_folder_is_told_to_be_a_file(demo: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere.yaml").write_text("title: x\n", "utf-8")
    (demo / "library.yaml").unlink()
    (demo / "library.yaml").symlink_to(tmp_path / "elsewhere.yaml")
    result = run("check", demo)
    assert "it is a link that leaves the content folder" in result.stdout
    assert "Put the file or folder itself there." in result.stdout


def test_a_content_folder_without_a_guide_is_told_what_a_guide_is(tmp_path: Path) -> None:
    (tmp_path / "library.yaml").write_text("title: Bench\n", "utf-8")
    assert "A guide is a folder with device.yaml" in run("check", tmp_path).stdout


def test_a_part_misspelt_is_met_with_what_it_may_have_been() -> None:
    result = run("route", DEVICE, "batery", "--content", DEMO)
    assert result.exit_code == 2
    assert "battery" in result.stderr


def test_a_way_without_a_joint_is_told_with_what_was_asked() -> None:
    result = run("route", DEVICE, "battery", "--content", DEMO, "--without", "cover-screws")
    assert result.exit_code == 0
    assert result.stdout.splitlines()[0] == "Veldrun Tarn 5: to the battery, without the screws of the upper cover"
    assert "Take off the upper cover" not in result.stdout
    asked = ("--content", DEMO, "--without", "cover-screws", "--as", "json")
    document = json.loads(run("route", DEVICE, "battery", *asked).stdout)
    assert document["without"] == ["cover-screws"]
    assert "lift-upper-cover" not in document["steps"]


def test_that_there_is_no_way_without_is_proved() -> None:
    result = run("route", DEVICE, "battery", "--content", DEMO, "--without", "speaker-screws", "--without", "tray-pin")
    assert result.exit_code == 1
    assert result.stdout == (
        "Every way to the battery undoes the screws of the speaker box:\n"
        "  No other step lifts the speaker box out or folds it aside, and the lower plug of the coax lead is behind it.\n"
    )
    named = ("--content", DEMO, "--as", "json", "--without", "driver-ph00")
    document = json.loads(run("route", DEVICE, "battery", *named).stdout)
    assert document["possible"] is False
    assert document["blocked"][0]["why"][0] == "Every way to the battery uses the cross-recess driver PH00."


def test_what_is_neither_joint_nor_tool_is_met_with_what_it_may_have_been() -> None:
    result = run("route", DEVICE, "battery", "--content", DEMO, "--without", "cover-screw")
    assert result.exit_code == 2
    assert 'no joint or tool "cover-screw". Did you mean cover-screws' in result.stderr


def test_fewer_tool_changes_are_proposed_beside_the_authors_order() -> None:
    parts = ("main-board", "sub-board", "vibration-motor", "rear-camera")
    plain = run("route", DEVICE, *parts, "--content", DEMO).stdout
    result = run("route", DEVICE, *parts, "--content", DEMO, "--regroup")
    assert result.exit_code == 0
    assert result.stdout.startswith(plain)
    proposed = result.stdout.removeprefix(plain).splitlines()
    assert re.fullmatch(r"In another order: (\d+) tool changes instead of (\d+), 0 turns instead of 0", proposed[1])
    assert proposed[-1].startswith("  No order of these steps has fewer than ")
    document = json.loads(run("route", DEVICE, *parts, "--content", DEMO, "--regroup", "--as", "json").stdout)
    regrouped = document["regrouped"]
    assert sorted(regrouped["steps"]) == sorted(document["steps"])
    assert regrouped["tool_changes"] < document["tool_changes"] and regrouped["optimal"]
    assert regrouped["bound"] == {"tool_changes": regrouped["tool_changes"], "turns": regrouped["turns"]}
    nothing = run("route", DEVICE, "back", "--content", DEMO, "--regroup").stdout
    assert "In the author's order there is nothing to save." in nothing


# --- explain and the rest ---


def test_explain_lists_and_explains_rules() -> None:
    listed = run("explain").stdout
    assert "order/behind" in listed and "error" in listed
    one = run("explain", "order/behind").stdout
    assert "Bad:" in one and "Good:" in one
    assert run("explain", "order/behnd").exit_code == 2
    assert "order/behind" in run("explain", "order/behnd").stderr


def test_help_names_every_command_and_loads_nothing_heavy() -> None:
    script = (
        "import sys\nfrom generator.commands import partway\n"
        "partway(['--help'], standalone_mode=False)\n"
        "print([m for m in ('pydantic', 'jinja2', 'yaml', 'networkx', 'PIL', 'markdown_it') if m in sys.modules])"
    )
    out = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, cwd=DEMO.parent, check=True).stdout
    for command in ("build", "check", "route", "explain"):
        assert command in out
    assert out.splitlines()[-1] == "[]"


def test_wrong_use_is_exit_two() -> None:
    assert run("chek").exit_code == 2
    assert run("check", "--as", "poem").exit_code == 2
