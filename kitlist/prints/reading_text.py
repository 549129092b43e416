"""What a reading was and what it says, in the words that follow its recording."""

from __future__ import annotations

from kitlist.kit import Battery, Reading
from kitlist.outlook.battery import when_read


def recorded(reading: Reading) -> str:
    """A reading as it was kept, with the circumstances that were given.

    >>> from datetime import datetime
    >>> taken = datetime(2027, 5, 1, 7, 30)
    >>> recorded(Reading(battery="main", volts_v=12.71, taken_at=taken, rested_h=12, battery_temp_c=-4))
    'Recorded main: 12.71 V, rested 12 h, at −4 °C, 2027-05-01 07:30.'
    """
    told = [f"{reading.volts_v:g} V"]
    if reading.charging:
        told.append("on charge")
    if reading.quick_load:
        told.append("after a short load")
    if reading.rested_h is not None:
        told.append(f"rested {reading.rested_h:g} h")
    if reading.load_a:
        told.append(f"on load at {reading.load_a:g} A")
    if reading.battery_temp_c is not None:
        told.append(f"at {f'{reading.battery_temp_c:g}'.replace('-', '−')} °C")
    return f"Recorded {reading.battery}: {', '.join(told)}, {reading.taken_at:%Y-%m-%d %H:%M}."


def says(battery: Battery, reading: Reading) -> str:
    """What a reading says of the charge, so that a slip is seen at once; "" for one on load, which says nothing of it.

    >>> from datetime import datetime
    >>> from kitlist.terms import Chemistry
    >>> read = Reading(battery="main", volts_v=12.45, taken_at=datetime(2027, 5, 1, 7), rested_h=12, battery_temp_c=25)
    >>> says(Battery(name="main", chemistry=Chemistry.FLOODED), read)
    'Charged 65 to 85 %.'
    """
    if reading.load_a:
        return ""
    charge = when_read(battery, reading)
    if charge.soc_ratio is None:
        return f"Its charge cannot be told: {charge.reason}."
    low, high = (f"{ratio * 100:.0f}" for ratio in (charge.soc_ratio.low, charge.soc_ratio.high))
    if high == "0":
        return "It is flat, or a cell is gone."
    told = [f"Charged {high} %" if low == high else f"Charged {low} to {high} %"]
    told += [note for note in charge.notes if "temperature" in note or "surface" in note]
    return "; ".join(told) + "."
