"""0001: the kit. Vehicles, batteries and their readings, leads, clamps, rods, gear, tools, bags, repairs, trips,
and what was printed.

Landed: never edited. A later change is a new file beside this one.
"""

from __future__ import annotations

from sqlite_utils import Database

TABLES = (
    """
    CREATE TABLE bag (
        name TEXT NOT NULL PRIMARY KEY COLLATE NOCASE CHECK (name <> '' AND length(name) <= 120),
        place TEXT NOT NULL CHECK (length(place) <= 120),
        walk_order INTEGER NOT NULL CHECK (walk_order BETWEEN 0 AND 99),
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at)
    ) STRICT
    """,
    """
    CREATE TABLE vehicle (
        name TEXT NOT NULL PRIMARY KEY COLLATE NOCASE CHECK (name <> '' AND length(name) <= 120),
        crank_a REAL CHECK (crank_a BETWEEN 50 AND 1500),
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at)
    ) STRICT
    """,
    """
    CREATE TABLE battery (
        name TEXT NOT NULL PRIMARY KEY COLLATE NOCASE CHECK (name <> '' AND length(name) <= 120),
        vehicle TEXT COLLATE NOCASE REFERENCES vehicle (name) ON UPDATE CASCADE,
        place TEXT NOT NULL CHECK (place IN ('start', 'second', 'loose')),
        chemistry TEXT NOT NULL CHECK (chemistry IN ('flooded', 'calcium', 'efb', 'agm', 'gel', 'lithium', 'unknown')),
        built_in_cutoff INTEGER CHECK (built_in_cutoff IN (0, 1)),
        condition TEXT NOT NULL CHECK (condition IN ('sound', 'cracked', 'leaking', 'swollen', 'frozen', 'unknown')),
        c20_ah REAL CHECK (c20_ah BETWEEN 5 AND 400),
        cranking_a REAL CHECK (cranking_a BETWEEN 50 AND 2500),
        cranking_standard TEXT NOT NULL CHECK (cranking_standard IN ('sae', 'en', 'en2', 'din', 'iec', 'mca', 'jis', 'unknown')),
        tester_mohm REAL CHECK (tester_mohm BETWEEN 0.5 AND 200),
        terminals TEXT NOT NULL CHECK (terminals <> ''),
        in_service_since TEXT CHECK (in_service_since IS date(in_service_since)),
        stays_connected INTEGER CHECK (stays_connected IN (0, 1)),
        mass_kg REAL CHECK (mass_kg BETWEEN 1 AND 90),
        bag TEXT COLLATE NOCASE REFERENCES bag (name) ON UPDATE CASCADE,
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at)
    ) STRICT
    """,
    """
    CREATE TABLE lead (
        name TEXT NOT NULL PRIMARY KEY COLLATE NOCASE CHECK (name <> '' AND length(name) <= 120),
        use TEXT NOT NULL CHECK (use IN ('link', 'holder', 'work', 'jumper', 'extension')),
        end_a TEXT NOT NULL CHECK (end_a <> ''),
        end_b TEXT NOT NULL CHECK (end_b <> ''),
        pattern_a TEXT NOT NULL CHECK (length(pattern_a) <= 120),
        pattern_b TEXT NOT NULL CHECK (length(pattern_b) <= 120),
        area_mm2 REAL CHECK (area_mm2 BETWEEN 1.5 AND 150),
        length_m REAL CHECK (length_m BETWEEN 0.05 AND 60),
        conductor TEXT NOT NULL CHECK (conductor IN ('copper', 'tinned-copper', 'aluminium', 'copper-clad', 'unknown')),
        insulation_limit_c REAL CHECK (insulation_limit_c BETWEEN 50 AND 200),
        mark TEXT NOT NULL CHECK (mark IN ('plus', 'minus', 'both-ends', 'none')),
        measured_mohm REAL CHECK (measured_mohm BETWEEN 0.01 AND 500),
        count INTEGER NOT NULL CHECK (count BETWEEN 0 AND 1000),
        bag TEXT COLLATE NOCASE REFERENCES bag (name) ON UPDATE CASCADE,
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at)
    ) STRICT
    """,
    """
    CREATE TABLE clamp (
        name TEXT NOT NULL PRIMARY KEY COLLATE NOCASE CHECK (name <> '' AND length(name) <= 120),
        what TEXT NOT NULL CHECK (what <> ''),
        joins_a TEXT CHECK (joins_a <> ''),
        joins_b TEXT CHECK (joins_b <> ''),
        pattern_a TEXT NOT NULL CHECK (length(pattern_a) <= 120),
        pattern_b TEXT NOT NULL CHECK (length(pattern_b) <= 120),
        rating_a REAL CHECK (rating_a BETWEEN 10 AND 1000),
        insulated INTEGER CHECK (insulated IN (0, 1)),
        count INTEGER NOT NULL CHECK (count BETWEEN 0 AND 1000),
        bag TEXT COLLATE NOCASE REFERENCES bag (name) ON UPDATE CASCADE,
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at)
    ) STRICT
    """,
    """
    CREATE TABLE rod (
        name TEXT NOT NULL PRIMARY KEY COLLATE NOCASE CHECK (name <> '' AND length(name) <= 120),
        designation TEXT NOT NULL CHECK (length(designation) <= 120),
        diameter_mm REAL NOT NULL CHECK (diameter_mm BETWEEN 1 AND 8),
        length_mm REAL NOT NULL CHECK (length_mm BETWEEN 150 AND 700),
        count INTEGER NOT NULL CHECK (count BETWEEN 0 AND 5000),
        storage TEXT NOT NULL CHECK (storage IN ('sealed', 'dry-tube', 'carton', 'loose', 'unknown')),
        opened_on TEXT CHECK (opened_on IS date(opened_on)),
        exposed_h REAL CHECK (exposed_h BETWEEN 0 AND 90000),
        condition TEXT NOT NULL CHECK (condition IN ('dry', 'damp', 'wet', 'damaged', 'unknown')),
        bakes INTEGER NOT NULL CHECK (bakes BETWEEN 0 AND 9),
        bag TEXT COLLATE NOCASE REFERENCES bag (name) ON UPDATE CASCADE,
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at)
    ) STRICT
    """,
    """
    CREATE TABLE gear (
        name TEXT NOT NULL PRIMARY KEY COLLATE NOCASE CHECK (name <> '' AND length(name) <= 120),
        what TEXT NOT NULL CHECK (what <> ''),
        shade REAL CHECK (shade BETWEEN 1.2 AND 16),
        protection TEXT NOT NULL CHECK (length(protection) <= 120),
        lowest_c REAL CHECK (lowest_c BETWEEN -60 AND 30),
        tested_on TEXT CHECK (tested_on IS date(tested_on)),
        sound INTEGER CHECK (sound IN (0, 1)),
        expires_on TEXT CHECK (expires_on IS date(expires_on)),
        count INTEGER NOT NULL CHECK (count BETWEEN 0 AND 1000),
        bag TEXT COLLATE NOCASE REFERENCES bag (name) ON UPDATE CASCADE,
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at)
    ) STRICT
    """,
    """
    CREATE TABLE tool (
        name TEXT NOT NULL PRIMARY KEY COLLATE NOCASE CHECK (name <> '' AND length(name) <= 120),
        what TEXT NOT NULL CHECK (what <> ''),
        count INTEGER NOT NULL CHECK (count BETWEEN 0 AND 1000),
        rating_a REAL CHECK (rating_a BETWEEN 1 AND 5000),
        rating_v REAL CHECK (rating_v BETWEEN 1 AND 2000),
        accuracy_ratio REAL CHECK (accuracy_ratio BETWEEN 0 AND 0.1),
        agent TEXT CHECK (agent <> ''),
        amount_kg REAL CHECK (amount_kg BETWEEN 0 AND 50),
        volume_l REAL CHECK (volume_l BETWEEN 0 AND 500),
        thickness_mm REAL CHECK (thickness_mm BETWEEN 0.5 AND 50),
        checked_on TEXT CHECK (checked_on IS date(checked_on)),
        expires_on TEXT CHECK (expires_on IS date(expires_on)),
        bag TEXT COLLATE NOCASE REFERENCES bag (name) ON UPDATE CASCADE,
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at)
    ) STRICT
    """,
    """
    CREATE TABLE repair (
        name TEXT NOT NULL PRIMARY KEY COLLATE NOCASE CHECK (name <> '' AND length(name) <= 120),
        part TEXT NOT NULL CHECK (length(part) <= 120),
        vehicle TEXT COLLATE NOCASE REFERENCES vehicle (name) ON UPDATE CASCADE,
        steel TEXT NOT NULL CHECK (steel <> ''),
        thickness_mm REAL CHECK (thickness_mm BETWEEN 0.5 AND 60),
        joint TEXT NOT NULL CHECK (joint IN ('fillet', 'lap', 'square-butt', 'single-v', 'plug')),
        position TEXT NOT NULL CHECK (position IN ('flat', 'horizontal', 'horizontal-fillet', 'vertical', 'vertical-down', 'overhead')),
        weld_length_mm REAL CHECK (weld_length_mm BETWEEN 5 AND 5000),
        leg_mm REAL CHECK (leg_mm BETWEEN 1 AND 25),
        load_bearing INTEGER CHECK (load_bearing IN (0, 1)),
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at)
    ) STRICT
    """,
    """
    CREATE TABLE trip (
        name TEXT NOT NULL PRIMARY KEY COLLATE NOCASE CHECK (name <> '' AND length(name) <= 120),
        starts_on TEXT NOT NULL CHECK (starts_on IS date(starts_on)),
        ends_on TEXT NOT NULL CHECK (ends_on IS date(ends_on)),
        crew TEXT NOT NULL CHECK (length(crew) <= 120),
        people INTEGER CHECK (people BETWEEN 1 AND 200),
        coldest_c REAL CHECK (coldest_c BETWEEN -60 AND 50),
        hottest_c REAL CHECK (hottest_c BETWEEN -40 AND 60),
        days_from_help REAL CHECK (days_from_help BETWEEN 0 AND 90),
        wet INTEGER CHECK (wet IN (0, 1)),
        parked_apart_m REAL CHECK (parked_apart_m BETWEEN 0 AND 30),
        bank_strings INTEGER NOT NULL CHECK (bank_strings BETWEEN 1 AND 4),
        fire_rules TEXT NOT NULL CHECK (fire_rules IN ('not-asked', 'allowed', 'with-conditions', 'banned')),
        fire_rules_asked_on TEXT CHECK (fire_rules_asked_on IS date(fire_rules_asked_on)),
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at),
        CHECK (ends_on >= starts_on)
    ) STRICT
    """,
    """
    CREATE TABLE reading (
        id INTEGER PRIMARY KEY,
        battery TEXT COLLATE NOCASE NOT NULL REFERENCES battery (name) ON UPDATE CASCADE,
        volts_v REAL NOT NULL CHECK (volts_v BETWEEN 0 AND 20),
        taken_at TEXT NOT NULL CHECK (datetime(taken_at) IS NOT NULL),
        rested_h REAL CHECK (rested_h BETWEEN 0 AND 9000),
        battery_temp_c REAL CHECK (battery_temp_c BETWEEN -50 AND 80),
        load_a REAL CHECK (load_a BETWEEN 0 AND 2000),
        charging INTEGER NOT NULL CHECK (charging IN (0, 1)),
        quick_load INTEGER NOT NULL CHECK (quick_load IN (0, 1)),
        meter_accuracy_ratio REAL CHECK (meter_accuracy_ratio BETWEEN 0 AND 0.1),
        note TEXT NOT NULL CHECK (length(note) <= 120),
        removed_at TEXT CHECK (datetime(removed_at) IS removed_at),
        UNIQUE (battery, taken_at)
    ) STRICT
    """,
    """
    CREATE TABLE trip_vehicle (
        trip TEXT NOT NULL COLLATE NOCASE REFERENCES trip (name) ON UPDATE CASCADE ON DELETE CASCADE,
        position INTEGER NOT NULL CHECK (position BETWEEN 0 AND 999),
        vehicle TEXT NOT NULL COLLATE NOCASE REFERENCES vehicle (name) ON UPDATE CASCADE,
        PRIMARY KEY (trip, position),
        UNIQUE (trip, vehicle)
    ) STRICT
    """,
    """
    CREATE TABLE trip_repair (
        trip TEXT NOT NULL COLLATE NOCASE REFERENCES trip (name) ON UPDATE CASCADE ON DELETE CASCADE,
        position INTEGER NOT NULL CHECK (position BETWEEN 0 AND 999),
        repair TEXT NOT NULL COLLATE NOCASE REFERENCES repair (name) ON UPDATE CASCADE,
        PRIMARY KEY (trip, position),
        UNIQUE (trip, repair)
    ) STRICT
    """,
    """
    CREATE TABLE trip_battery (
        trip TEXT NOT NULL COLLATE NOCASE REFERENCES trip (name) ON UPDATE CASCADE ON DELETE CASCADE,
        position INTEGER NOT NULL CHECK (position BETWEEN 0 AND 999),
        battery TEXT NOT NULL COLLATE NOCASE REFERENCES battery (name) ON UPDATE CASCADE,
        PRIMARY KEY (trip, position),
        UNIQUE (trip, battery)
    ) STRICT
    """,
    """
    CREATE TABLE printed (
        id INTEGER PRIMARY KEY,
        paper TEXT NOT NULL CHECK (paper IN ('sheet', 'card')),
        trip TEXT NOT NULL COLLATE NOCASE REFERENCES trip (name) ON UPDATE CASCADE,
        content_hash TEXT NOT NULL CHECK (length(content_hash) = 8),
        revision INTEGER NOT NULL CHECK (revision >= 1),
        printed_on TEXT NOT NULL CHECK (printed_on IS date(printed_on))
    ) STRICT
    """,
    """
    CREATE INDEX reading_newest ON reading (battery, taken_at DESC)
    """,
)


def forward(db: Database) -> None:
    """Create every table of the kit."""
    for statement in TABLES:
        db.execute(statement)
