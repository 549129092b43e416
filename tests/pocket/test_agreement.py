"""The script's numbers are Python's, on random crews and on whatever is typed; and every constant of it is held."""

from __future__ import annotations

import json
import os
import random
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from faces.worlds import world
from kitlist.base import resources
from kitlist.base.errors import KitlistError
from kitlist.base.terms import Covering
from kitlist.faces.pocket.answers import PocketBead, Typed, answer, asked
from kitlist.faces.pocket.build_pocket import reckoned_of
from kitlist.faces.pocket.reckoned import Reckoned, exported, kinds_of_rods
from kitlist.outlook import look_out
from kitlist.readiness import Readiness
from pocket.parts import ASK_PARTS, REFUSED, questions

SHAPES = int(os.environ.get("KITLIST_TEST_INPUTS", "300"))
INPUTS = 20
CHUNK = 100
SCRIPT = (resources.folder("templates") / "pocket_reckoning.js").read_text(encoding="utf-8")
COMPARE = """([data, cases]) => {
  const { answer } = reckoning(data);
  return cases.map(([given]) => { try { return answer(given); } catch (error) { return { error: String(error) }; } });
}"""


ENDLESS = "1e999"
"""Both languages read it as infinity, which JSON has no word for."""


def evaluated(page: Page, code: str, given: Any) -> Any:
    """What the page's code makes of what it is given; sent and answered as one text: the driver's own way through
    each value of thousands costs more than the reckoning."""
    written = '(key, value) => value === Infinity ? "Infinity" : value'
    said = page.evaluate(
        f"sent => JSON.stringify(({code})(JSON.parse(sent)), {written})",
        json.dumps(given).replace("Infinity", ENDLESS),
    )
    return json.loads(said.replace('"Infinity"', ENDLESS))


@pytest.fixture(scope="module")
def scripted(browser: Browser) -> Iterator[Page]:
    page = browser.new_page()
    page.add_script_tag(content=SCRIPT)
    yield page
    page.close()


def crew(seed: int) -> tuple[Readiness, Reckoned]:
    """A crew's bank as the page would reckon it, even where it may not be linked and no page would show it."""
    one = world(seed)
    outlook = look_out(one.kit, one.trip, on=one.on)
    readiness = Readiness(kit=one.kit, trip=one.trip, on=one.on, outlook=outlook, gaps=())
    reckoned = reckoned_of(readiness)
    bank = outlook.bank
    if bank is not None and bank.rig is not None and reckoned.rig is None:
        kinds = kinds_of_rods(bank, outlook.rods, coldest_c=reckoned.coldest_c)
        reckoned = replace(reckoned, rig=bank.rig, kinds=kinds)
    return readiness, reckoned


def typed(reckoned: Reckoned, chance: random.Random) -> Typed:
    """Whatever somebody may type: now and then nothing for a battery, or for the rest."""
    rested_h = chance.choice((None, 0.2, 1.9, 2.0, 3.5, 6.0, 12.0, 23.9, 24.0, 72.0))
    count = len(reckoned.batteries)
    one = chance.uniform(11.6, 13.1)
    volts = tuple(
        None if chance.random() < 0.03 else round(one + chance.choice((0.0, 0.0, chance.uniform(-0.4, 0.4))), 2)
        for _ in range(count)
    )
    bead = None
    if reckoned.rig is not None and chance.random() < 0.4:
        n = reckoned.rig.in_series
        bank_v = round(chance.uniform(9.6, 11.6) * n, 1)
        holder_v = chance.choice((None, round(min(35.0, bank_v - chance.uniform(0.2, 3.0)), 1)))
        bead = PocketBead(
            rest_v=round(chance.uniform(12.2, 12.8) * n, 2),
            bank_v=bank_v,
            current_a=float(chance.randint(60, 260)),
            holder_v=holder_v,
        )
    return Typed(
        volts=volts,
        rested_h=rested_h,
        bled=chance.random() < 0.4,
        battery_temp_c=chance.choice((None, round(chance.uniform(-25.0, 40.0), 1), -6.0, 25.0)),
        air_c=chance.choice((None, round(chance.uniform(-35.0, 45.0), 1), 0.0, -0.1, reckoned.coldest_c)),
        bead=bead,
    )


def differences(own: Any, python: Any, at: str = "") -> Iterator[str]:
    """Where the script says another thing; numbers to a billionth, rods and verdicts alike."""
    if isinstance(python, dict):
        for key, value in python.items():
            yield from differences((own or {}).get(key), value, f"{at}.{key}")
    elif isinstance(python, list):
        for place, value in enumerate(python):
            yield from differences(own[place], value, f"{at}[{place}]")
    elif isinstance(python, float) and isinstance(own, int | float):
        if own != python and not abs(own - python) <= 1e-9 * max(1.0, abs(python)):
            yield f"{at}: {own} for {python}"
    elif own != python:
        yield f"{at}: {own} for {python}"


def answered(reckoned: Reckoned, one: Typed) -> dict[str, Any] | None:
    try:
        return answer(reckoned, one)
    except KitlistError:
        return None


@pytest.mark.parametrize("first", range(0, SHAPES, CHUNK))
def test_on_random_crews_every_number_is_python_s(scripted: Page, first: int) -> None:
    chance = random.Random(20270506 + first)
    seen: Counter[str] = Counter()
    for seed in range(first, min(first + CHUNK, SHAPES)):
        readiness, reckoned = crew(seed)
        if not reckoned.batteries:
            continue
        cases = [typed(reckoned, chance) for _ in range(INPUTS)]
        expected = [answered(reckoned, one) for one in cases]
        own = evaluated(scripted, COMPARE, [exported(reckoned), [[one.as_data()] for one in cases]])
        for one, script, python in zip(cases, own, expected, strict=True):
            if python is None:
                assert "error" in script, (seed, one, script)
                continue
            assert "error" not in script, (seed, one, script)
            assert list(differences(script, python)) == [], (seed, one)
        seen.update(_shape(readiness, reckoned, cases))
    wanted = ("rig", "no rig", "parallel", "chemistry unknown", "bead", "under 0", "cellulosic", "rods", "ballast")
    assert [kind for kind in wanted if not seen[kind]] == [], seen


def _shape(readiness: Readiness, reckoned: Reckoned, cases: list[Typed]) -> Iterator[str]:
    yield "rig" if reckoned.rig is not None else "no rig"
    if reckoned.rig is None:
        return
    if len(reckoned.rig.groups) > 1:
        yield "parallel"
    if reckoned.rig.leads.ballast_ohm:
        yield "ballast"
    if any(one.battery.chemistry == "unknown" for one in reckoned.batteries):
        yield "chemistry unknown"
    if any(kind.rod.designation and kind.rod.designation.covering is Covering.CELLULOSIC for kind in reckoned.kinds):
        yield "cellulosic"
    yield from ("bead" for one in cases if one.bead is not None)
    yield from ("under 0" for one in cases if one.air_c is not None and one.air_c < 0)
    yield from ("rods" for kind in reckoned.kinds)


def test_colder_air_never_shows_more_rods_and_the_laptop_s_rule_never_fewer(readiness: Readiness) -> None:
    reckoned = reckoned_of(readiness)
    for volts in (12.4, 12.6, 12.7, 12.8):
        before = None
        for air_c in (30.0, 10.0, 0.0, -6.0, -8.0, -11.0, -16.0, -21.5, -29.0, -33.0):
            one = Typed(volts=(volts,) * len(reckoned.batteries), rested_h=12.0, battery_temp_c=4.0, air_c=air_c)
            rods = [(kind["rods"]["sure"], kind["rods"]["likely"]) for kind in answer(reckoned, one)["kinds"]]
            if before is not None:
                assert all(a <= b and c <= d for (a, c), (b, d) in zip(rods, before, strict=True)), (volts, air_c)
            before = rods


def test_what_is_read_on_the_laptop_is_what_the_page_shows_for_the_same_facts(readiness: Readiness) -> None:
    reckoned = reckoned_of(readiness)
    outlook = readiness.outlook
    assert outlook.bank is not None
    readings = {name: one.reading for name, one in outlook.batteries.items()}
    rested = {reading.rested_h for reading in readings.values() if reading is not None}
    compared = 0
    for name, reading in readings.items():
        if reading is None or reading.battery_temp_c is None:
            continue
        one = Typed(
            volts=tuple(r.volts_v if r else None for r in readings.values()),
            rested_h=min(hours for hours in rested if hours is not None),
            battery_temp_c=reading.battery_temp_c,
        )
        shown = answer(reckoned, one)
        place = [b.battery.name for b in reckoned.batteries].index(name)
        soc = outlook.batteries[name].charge_when_read.soc_ratio
        if soc is not None:
            assert shown["batteries"][place]["charge"]["soc_ratio"]["best"] == pytest.approx(soc.best)
            compared += 1
    assert compared


REFUSES = ("return unknown(", "most_rods", "HAIR", "LEAST_OHM")
"""Lines that only word a refusal, or bound what is never reached: no answer hangs on them."""


def mutants() -> Iterator[tuple[str, str]]:
    """Every number of the script that an answer hangs on five per cent off, every comparison and sum turned round."""
    code = SCRIPT[: SCRIPT.index("// Whether this browser gives")]
    skipped = [m.span() for m in re.finditer(r"//[^\n]*|\"[^\"\n]*\"|`[^`\n]*`", code)]
    at = 0
    for line in code.splitlines(keepends=True):
        if any(word in line for word in REFUSES):
            skipped.append((at, at + len(line)))
        at += len(line)
    turned = {"+": "-", "-": "+", "*": "/", "/": "*", "<": ">=", ">": "<=", "<=": ">", ">=": "<"}
    for match in re.finditer(r"(?<![\w.\[])(\d+\.\d+|\d+)(?![\w.])| ([-+*/<>]|<=|>=) ", code):
        place = match.start(1) if match[1] else match.start(2)
        if any(low <= place < high for low, high in skipped) or (match[1] and float(match[1]) == 0):
            continue
        if match[1]:
            other = f"{float(match[1]) * 1.05:.6g}" if "." in match[1] else str(int(match[1]) + 1)
        else:
            other = turned[match[2]]
        was = match[1] or match[2]
        said = f"line {code.count(chr(10), 0, place) + 1}: {was} -> {other}"
        yield said, SCRIPT[:place] + other + SCRIPT[place + len(was) :]


def test_a_figure_that_is_five_per_cent_off_is_noticed_by_the_page_itself(scripted: Page, readiness: Readiness) -> None:
    """Each figure that this bank's answers hang on; those of another kind of battery or rod are nothing to it."""
    reckoned = reckoned_of(readiness)
    data = exported(reckoned) | {"answers": [[one.as_data(), answer(reckoned, one)] for one in asked(reckoned)]}
    assert evaluated(scripted, "data => self_check(data)", data) == []
    idle = {"most_rods", "cellulosic_v"}
    for name, figure in data["figures"].items():
        if name in idle or name == "lattice":
            continue
        values = figure if isinstance(figure, dict) else {"": figure}
        changed = {key: value * 1.05 if value else 0.05 for key, value in values.items()}
        off = data | {"figures": data["figures"] | {name: changed if isinstance(figure, dict) else changed[""]}}
        assert evaluated(scripted, "data => self_check(data)", off), name
    for name in ("ocv_temperature", "load_test", "cold_capacity"):
        points = [(x, y * 1.05) for x, y in data["tables"][name]]
        off = data | {"tables": data["tables"] | {name: points}}
        assert evaluated(scripted, "data => self_check(data)", off), name
    few = data | {"answers": data["answers"][:35]}
    assert evaluated(scripted, "data => self_check(data)", few)


def test_each_part_says_what_python_s_function_of_its_name_says(scripted: Page) -> None:
    seen: Counter[str] = Counter()
    for seed in range(SHAPES // 10):
        _, reckoned = crew(seed)
        asked_of = questions(reckoned, random.Random(seed))
        said = evaluated(scripted, ASK_PARTS, [exported(reckoned), [[name, given] for name, given, _ in asked_of]])
        for (name, given, python), script in zip(asked_of, said, strict=True):
            assert list(differences(script, python)) == [], (seed, name, given)
            seen[f"{name} refused" if python == REFUSED else name] += 1
    for name in ("learn", "capacity_ratio", "least_crank_volts", "floor_at"):
        assert seen[name], f"{name} is never asked what it answers"
        assert seen[f"{name} refused"], f"{name} is never asked what it refuses"
    assert min(seen[name] for name in ("spare_ratio", "charge_ratio", "hardest_ratio", "judge", "state_of_charge")) > 50


NOTICED = """(code) => {
  let made;
  try { made = new Function(code + "; return { reckoning, self_check };")(); } catch (error) { return String(error); }
  const same = (own, python) => {
    if (typeof python === "number" && typeof own === "number")
      return own === python || Math.abs(own - python) <= 1e-9 * Math.max(1, Math.abs(python));
    if (python === null || own === null || own === undefined || typeof python !== "object") return own === python;
    return Object.keys(python).every((key) => same(own[key], python[key]));
  };
  const said = (parts, name, given) => {
    try { return parts[name](...given); } catch (error) {
      if (error instanceof parts.OutOfRange) return { refused: true };
      throw error;
    }
  };
  try {
    const checked = (data) => made.self_check(data).some((line) => line !== "too few answers to check by");
    const { data: first } = cases[0];  // two answers show most changes, in a tenth of the time
    return checked({ ...first, answers: first.answers.slice(0, 2) }) || cases.some(({ data, questions }) => {
      const parts = made.reckoning(data);
      return questions.some(([name, given, python]) => !same(said(parts, name, given), python)) || checked(data);
    });
  } catch (error) { return String(error); }
}"""


def test_a_change_of_one_constant_or_operator_of_the_script_is_noticed(browser: Browser) -> None:
    every = list(mutants())
    assert len(every) > 150
    chance = random.Random(7)
    cases = []
    for seed in range(14 if SHAPES <= 300 else 60):
        _, reckoned = crew(seed)
        if reckoned.batteries:
            asked_of = (
                *asked(reckoned)[:: 4 if SHAPES <= 300 else 1],
                *(typed(reckoned, chance) for _ in range(3)),
            )
            known = [(one.as_data(), found) for one in asked_of if (found := answered(reckoned, one)) is not None]
            data = exported(reckoned) | {"answers": [list(one) for one in known]}
            cases.append({"data": data, "questions": [list(one) for one in questions(reckoned, chance)]})
    page = browser.new_page()
    evaluated(page, "cases => { window.cases = cases; return null; }", cases)  # once: they are most of what is sent
    assert page.evaluate(NOTICED, SCRIPT) is False
    missed = [what for what, code in every if page.evaluate(NOTICED, code) is False]
    page.close()
    # What is left: a lattice whose first column is turned round, a degree that is never the least, a charge of exactly
    # full, a tenth of the points.
    assert len(missed) <= len(every) * 0.02, missed
