"""Make `pybamm_field_cases.json`: charging at constant current, and the acid levelling after three rods.

    pip install pybamm && python tests/outside/make_pybamm_field_cases.py

The same model, parameters and scaling as `make_pybamm_cases.py`. It has no gassing and no falling current of its own:
what it can say is how fast a charge can be at best, and how long volts move after a weld. Run by hand: the suite only
reads the result.
"""

from __future__ import annotations

import json
from pathlib import Path

HERE = Path(__file__).parent
CAPACITY_AH = 70.0
ROD_AH = 2.05


def main() -> None:
    import pybamm

    pybamm.set_logging_level("ERROR")
    model, parameters = pybamm.lead_acid.Full(), pybamm.ParameterValues("Sulzer2019")
    scale = json.loads((HERE / "pybamm_cases.json").read_text(encoding="utf-8"))["model_c20_ah"] / CAPACITY_AH

    def run(steps, period):
        experiment = pybamm.Experiment(steps, period=period)
        return pybamm.Simulation(model, parameter_values=parameters, experiment=experiment).solve()

    charges = []
    for amps, put_back_ah in ((10.0, 6.15), (25.0, 6.15), (25.0, 12.3)):
        hours = put_back_ah / amps
        steps = [
            f"Discharge at {CAPACITY_AH * scale / 20} A for 10 hours",
            "Rest for 2 hours",
            f"Charge at {amps * scale} A for {hours * 3600:.0f} seconds",
            "Rest for 2 hours",
        ]
        solution = run([tuple(steps)], "1 minute")
        before, on, after = (solution.cycles[0].steps[n]["Battery voltage [V]"].entries for n in (1, 2, 3))
        charges.append(
            {
                "current_a": amps,
                "put_back_ah": put_back_ah,
                "hours": round(hours, 4),
                "rested_before_v": round(float(before[-1]), 4),
                "highest_v": round(float(on.max()), 4),
                "rested_after_v": round(float(after[-1]), 4),
            }
        )

    burn_s = 3600 * ROD_AH / 150
    rods = [f"Discharge at {150 * scale} A for {burn_s:.1f} seconds", "Rest for 2 minutes"] * 2
    rods += [f"Discharge at {150 * scale} A for {burn_s:.1f} seconds", "Rest for 6 hours"]
    rest = run([tuple(rods)], "30 seconds").cycles[0].steps[5]
    minutes = (rest["Time [s]"].entries - rest["Time [s]"].entries[0]) / 60
    volts = rest["Battery voltage [V]"].entries
    levelling = [
        {"minutes": after, "short_of_rest_v": round(float(volts[-1] - volts[(minutes >= after).argmax()]), 4)}
        for after in (1, 5, 15, 30, 120)
    ]
    cases = {
        "made_with": f"PyBaMM {pybamm.__version__}, lead_acid.Full, Sulzer2019",
        "capacity_ah": CAPACITY_AH,
        "charges": charges,
        "levelling_after_three_rods": levelling,
    }
    text = json.dumps(cases, indent=1) + "\n"
    Path(HERE / "pybamm_field_cases.json").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
