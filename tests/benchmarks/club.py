"""A club's store, invented: the demo's kit and three vehicles' trip among 200 vehicles, 1,000 batteries, 50 trips."""

from __future__ import annotations

import csv
from datetime import datetime, timedelta
from pathlib import Path

from kitlist.base import resources
from kitlist.store import Store, changes, start
from kitlist.store.importing import import_file
from kitlist.store.snapshot import snapshot

VEHICLES, BATTERIES, TRIPS, READINGS = 200, 1000, 50, 100_000


def demo(path: Path) -> Store:
    """A store with the demo's kit."""
    store = start(path)
    import_file(store, resources.folder("seed_data") / "demo" / "kit.toml")
    return store


def club(path: Path) -> Store:
    """The demo's kit grown to a club's, all but the readings; all of it goes in through the import."""
    store = demo(path)
    kit = snapshot(store)
    vehicles = [f"wagon {n}" for n in range(VEHICLES - len(kit.vehicles))]
    rows = ["[[vehicle]]\nname = '" + name + "'\n" for name in vehicles]
    for n in range(BATTERIES - len(kit.batteries)):
        place = "start" if n < len(vehicles) else "second"
        where = f"vehicle = 'wagon {n % len(vehicles)}'\nplace = '{place}'"
        rows.append(f"[[battery]]\nname = 'battery {n}'\n{where}\nc20_ah = 75\n")
    for n in range(TRIPS - len(kit.trips)):
        going = ", ".join(f"'wagon {(3 * n + k) % len(vehicles)}'" for k in range(3))
        rows.append(
            f"[[trip]]\nname = 'trip {n}'\nstarts_on = 2026-03-01\nends_on = 2026-03-04\nvehicles = [{going}]\n"
        )
    toml = path.with_suffix(".toml")
    toml.write_text("\n".join(rows), encoding="utf-8")
    import_file(store, toml)
    return store


def readings_csv(path: Path, batteries: list[str], count: int = READINGS) -> Path:
    """Invented readings of every battery in turn, as CSV; they end in April 2027."""
    first = datetime.fromisoformat("2027-04-30T07:00") - timedelta(minutes=10 * count)
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(["battery", "volts_v", "taken_at", "rested_h", "battery_temp_c", "meter_accuracy_ratio"])
        for n in range(count):
            taken_at = (first + timedelta(minutes=10 * n)).isoformat()
            writer.writerow([batteries[n % len(batteries)], 12 + n % 80 / 100, taken_at, 12, n % 30 - 5, 0.005])
    return path


def batteries_of(store: Store) -> list[str]:
    """The names of a store's batteries."""
    return [battery.name for battery in changes.listed(store, "battery")]
