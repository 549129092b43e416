"""What a reading was and what it says, in the words that follow its recording."""

from __future__ import annotations

from kitlist.base.measures import with_unit
from kitlist.kit import Battery, Reading, Vehicle
from kitlist.outlook.battery import when_read, with_true_rest

_ASKED = "is the rest right, or that time?"


def recorded(reading: Reading) -> str:
    """A reading as it was kept, with the circumstances that were given.

    >>> from datetime import datetime
    >>> taken = datetime(2027, 5, 1, 7, 30)
    >>> recorded(Reading(battery="main", volts_v=12.71, taken_at=taken, rested_h=12, battery_temp_c=-4))
    'Recorded main: 12.71 V, rested 12 h, at −4 °C, 2027-05-01 07:30.'
    """
    parts = [f"{reading.volts_v:g} V"]
    if reading.charging:
        parts.append("on charge")
    if reading.quick_load:
        parts.append("after a short load")
    if reading.rested_h is not None:
        parts.append(f"rested {with_unit(reading.rested_h, 'h')}")
    if reading.load_a:
        parts.append(f"on load at {reading.load_a:g} A")
    if reading.battery_temp_c is not None:
        parts.append(f"at {with_unit(reading.battery_temp_c, '°C')}")
    return f"Recorded {reading.battery}: {', '.join(parts)}, {reading.taken_at:%Y-%m-%d %H:%M}."


def says(battery: Battery, reading: Reading, vehicle: Vehicle | None) -> str:
    """What a reading says of the charge, so that a slip is seen at once; "" for one on load, which says nothing of it.

    A rest that is longer than the time since its vehicle was driven counts only from then on, and is asked about.

    >>> from datetime import datetime
    >>> from kitlist.base.terms import Chemistry
    >>> read = Reading(battery="main", volts_v=12.45, taken_at=datetime(2027, 5, 1, 7), rested_h=12, battery_temp_c=25)
    >>> says(Battery(name="main", chemistry=Chemistry.FLOODED), read, None)
    'Charged 65 to 85 %.'
    """
    if reading.load_a:
        return ""
    driven_at = vehicle.driven_at if vehicle else None
    if driven_at is not None and reading.taken_at < driven_at:
        return f"It counts no more: {battery.vehicle} was driven since, until {driven_at:%Y-%m-%d %H:%M}."
    counted = with_true_rest(reading, driven_at)
    doubt = "" if counted == reading else f" {battery.vehicle} was driven until {driven_at:%Y-%m-%d %H:%M}: {_ASKED}"
    charge = when_read(battery, counted)
    if charge.soc_ratio is None:
        return f"Its charge cannot be told: {charge.reason}.{doubt}"
    low, high = (f"{ratio * 100:.0f}" for ratio in (charge.soc_ratio.low, charge.soc_ratio.high))
    if high == "0":
        return f"It is flat, or a cell is gone.{doubt}"
    parts = [f"Charged {high} %" if low == high else f"Charged {low} to {high} %"]
    parts += [note for note in charge.notes if "temperature" in note or "surface" in note]
    return "; ".join(parts) + f".{doubt}"
