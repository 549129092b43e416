"""One whole story with real processes: from an empty disk to the second trip."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from test_commands import as_toml

import running
from kitlist.rules import example
from running import Done

Run = Callable[..., Done]
MATES = ("Bea", "Cy", "Dee")
BANK = "north-second,main (Bea),main (Cy)"


def runner(store: Path) -> Run:
    def run(*words: str, code: int | None = 0) -> Done:
        done = running.kitlist(*words, store=store, env={"COLUMNS": "60"})
        assert code in (None, done.returncode), (words, done.stdout, done.stderr)
        return done

    return run


def told(run: Run, *words: str, code: int = 0) -> Any:
    return json.loads(run(*words, "--json", code=code).stdout)


def rules(run: Run, trip: str, on: str) -> dict[str, str]:
    """The gaps of a trip, by rule."""
    gaps = json.loads(run("ready", trip, "--on", on, "--json", code=None).stdout)["gaps"]
    return {gap["rule"]: gap["subject"] for gap in gaps}


@pytest.fixture
def kit(tmp_path: Path) -> Path:
    """The kit of a crew as one file by hand: everything but readings and a trip."""
    whole = example.whole().kit
    aged = tuple(replace(b, in_service_since=date(2023, 1, 15)) for b in whole.batteries)
    dry = tuple(replace(r, opened_on=date(2024, 4, 20)) for r in whole.rods)
    bare = replace(whole, batteries=aged, rods=dry, readings=())
    path = tmp_path / "kit.toml"
    text = as_toml(bare, example.whole().trip)
    path.write_text(text[: text.index("[[trip]]")], encoding="utf-8")
    return path


def companion(folder: Path, mate: str) -> Path:
    run = runner(folder / f"{mate}.db")
    run("start")
    run("vehicle", "add", "Ox", "crank=250")
    run(
        "battery", "add", "main", "vehicle=Ox", "chemistry=agm", "c20=80Ah", "cranking-a=800",
        "cranking-standard=sae", "condition=sound", "built-in-cutoff=no", "terminals=post", "stays-connected=no",
        "in-service-since=2023-02-01",
    )  # fmt: skip
    run("volts", "main", "12.82", "--rested", "12h", "--temp", "15", "--at", "2024-05-07T07:00", "--load", "0")
    path = folder / f"{mate}.toml"
    path.write_text(run("share", "Ox", "--by", mate).stdout, encoding="utf-8")
    return path


def test_from_an_empty_disk_to_the_second_trip(tmp_path: Path, kit: Path) -> None:
    run = runner(tmp_path / "kit.db")
    assert "> kitlist start" in run().stdout
    run("start")
    assert "> kitlist vehicle add" in run().stdout
    run("import", str(kit))

    # the trip, three companions, and what is to be done
    run(
        "trip", "add", "Dry lake", "starts-on=2024-05-08", "ends-on=2024-05-16", "vehicles=North", "people=4",
        "coldest=5", "hottest=25", "days-from-help=1", "wet=no", "parked-apart=1", "fire-rules=allowed",
        "fire-rules-asked-on=2024-05-01",
    )  # fmt: skip
    for mate in MATES:
        run("import", str(companion(tmp_path, mate)), "--trip", "Dry")
    assert told(run, "trip", "show", "Dry")["vehicles"] == ["North", *(f"Ox ({mate})" for mate in MATES)]
    assert told(run, "next", "Dry", "--on", "2024-04-20")["verdict"] == "not ready"
    days = told(run, "next", "Dry", "--all", "--on", "2024-04-20")
    assert [d["word"] for d in days if d["word"] in ("charge", "rest", "read")] == ["charge", "rest", "read"]

    # charge and read, choose the bank
    plan = {line["name"]: line["do"] for line in told(run, "charge", "Dry", "--on", "2024-05-04")["batteries"]}
    assert plan["north-main"] == "charge, then read"
    for name in ("north-main", "north-second"):
        run("volts", name, "12.82", "--rested", "12h", "--temp", "15", "--load", "0", "--at", "2024-05-07T07:00")
    assert any("(" in name for name in str(told(run, "bank", "Dry", "--on", "2024-05-07")))
    run("trip", "edit", "Dry", f"bank={BANK}")

    # print, go through the bags from the paper, find a thing missing, put it right
    sheet = tmp_path / "sheet.txt"
    run("print", "sheet", "Dry", "--on", "2024-05-07", "--out", str(sheet))
    mark = re.findall(r"\b[0-9a-f]{8}\b", sheet.read_text(encoding="utf-8").splitlines()[-1])[0]
    lines = told(run, "check-off", "Dry")["lines"]
    shovel = next(line["number"] for line in lines if line["name"] == "shovel")
    ticks = [f"1-{shovel - 1}=there", f"{shovel}=missing", f"{shovel + 1}-{len(lines)}=there"]
    run("check-off", "--sheet", mark, "--by", "Ada", *ticks)
    assert rules(run, "Dry", "2024-05-07")["short-at-check-off"] == "shovel"
    run("check-off", "Dry", "--by", "Ada", "shovel=there")
    assert told(run, "check-off", "Dry")["left"] == 0
    assert "short-at-check-off" not in rules(run, "Dry", "2024-05-07")
    run("print", "card", "Dry", "--on", "2024-05-07", "--out", str(tmp_path / "card.pdf"))
    assert (tmp_path / "card.pdf").read_bytes().startswith(b"%PDF")

    # on the way: welded, a glove torn; home again
    rods = told(run, "rod", "show", "thick rods")["count"]
    run(
        "used",
        "Dry",
        "thick rods=3",
        "water=2L",
        "gloves=damaged",
        "--linked",
        "bank",
        "--by",
        "Ada",
        "--on",
        "2024-05-12",
    )
    run("volts", "north-second", "12.60", "--rested", "12h", "--temp", "15", "--load", "0", "--at", "2024-05-13T07:00")
    run(
        "mend", "add", "hanger weld", "part=spring hanger", "welded-on=2024-05-12", "vehicle=North", "trip=Dry",
        "rod=thick rods", f"bank={BANK}", "current=150", "photo=hanger.jpg", "sound-at-5-km=yes",
    )  # fmt: skip
    used = told(run, "used", "Dry", "--on", "2024-05-13")
    by_name = {battery["name"]: battery for battery in used["batteries"]}
    assert set(by_name) == set(BANK.split(","))
    assert by_name["north-second"]["taken_ah"][1] > 0
    assert by_name["north-second"]["predicted_ah"][0] > 0
    assert told(run, "rod", "show", "thick rods")["count"] == rods - 3

    # restock
    back = told(run, "restock", "Dry", "--on", "2024-05-17")
    assert {line["name"] for line in back["get"]} == {"thick rods", "water", "gloves"}
    assert {battery["battery"] for battery in back["recharge"]} == set(BANK.split(","))
    run("restock", "Dry", "--done", "--on", "2024-05-18")
    assert told(run, "rod", "show", "thick rods")["count"] == rods
    assert "> kitlist restock" in run("next", "--on", "2024-05-20").stdout

    # the second trip: guests stay at home, the glove and the weld do not go away by themselves
    run("trip", "add", "Second", "starts-on=2024-07-08", "ends-on=2024-07-10", "vehicles=North")
    gaps = rules(run, "Second", "2024-06-20")
    assert gaps["mend-not-settled"] == "hanger weld"
    assert gaps["short-at-check-off"] == "gloves"
    assert {b["name"] for b in told(run, "ready", "Second", "--on", "2024-06-20", code=10)["batteries"]} == {
        "north-main",
        "north-second",
    }
    run("check-off", "Second", "--by", "Ada", "gloves=there")
    run("mend", "edit", "hanger", "settled=replaced", "settled-on=2024-06-01", "settled-by=Track Garage")
    gaps = rules(run, "Second", "2024-06-20")
    assert not {"mend-not-settled", "short-at-check-off"} & set(gaps)
