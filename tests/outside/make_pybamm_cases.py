"""Make `pybamm_cases.json`: a porous-electrode model of a lead-acid battery, scaled to 70 Ah.

    pip install pybamm && python tests/outside/make_pybamm_cases.py

PyBaMM, lead_acid.Full with the parameter set Sulzer2019 (Sulzer et al., J. Electrochem. Soc. 166, 2019), six cells.
Currents are scaled by the model's own 20 h capacity over 70 Ah. The model has no temperature in its kinetics and a
stronger acid than a car battery's, so shapes and drops compare, absolute volts do not. Run by hand: the suite only
reads the result.
"""

from __future__ import annotations

import json
from pathlib import Path

CAPACITY_AH = 70.0
ROD_AH = 2.05
CUT_OFF = "10.5 V"


def main() -> None:
    import pybamm

    pybamm.set_logging_level("ERROR")
    model, parameters = pybamm.lead_acid.Full(), pybamm.ParameterValues("Sulzer2019")

    def run(steps, period="5 seconds", termination=None):
        experiment = pybamm.Experiment(steps, period=period, termination=termination)
        return pybamm.Simulation(model, parameter_values=parameters, experiment=experiment).solve()

    def hours_to_cut_off(amps, period):
        solution = run([f"Discharge at {amps} A for 40 hours or until {CUT_OFF}"], period)
        return float(solution["Time [s]"].entries[-1]) / 3600

    low, high = 0.8, 1.4
    for _ in range(14):
        i20 = (low + high) / 2
        low, high = (i20, high) if hours_to_cut_off(i20, "10 minutes") > 20 else (low, i20)
    scale = 20 * i20 / CAPACITY_AH

    burns = []
    for amps in (25, 80, 120, 150, 200, 250):
        solution = run([f"Discharge at {amps * scale} A for 40 hours or until {CUT_OFF}"], "1 second")
        volts, hours = solution["Battery voltage [V]"].entries, float(solution["Time [s]"].entries[-1]) / 3600
        burns.append({"current_a": amps, "delivered_ah": round(hours * amps, 2), "first_v": round(float(volts[0]), 4)})

    rods = []
    for amps, pause_s in ((120, 120), (150, 120), (200, 60), (150, 30), (120, 300)):
        steps = [
            (f"Discharge at {amps * scale} A for {3600 * ROD_AH / amps:.1f} seconds", f"Rest for {pause_s} seconds")
        ]
        solution = run(steps * 45, "2 seconds", CUT_OFF)
        lowest = [float(cycle["Battery voltage [V]"].entries.min()) for cycle in solution.cycles if cycle is not None]
        whole = sum(volts > 10.5 for volts in lowest)
        rods.append({"current_a": amps, "pause_s": pause_s, "rods": whole, "least_v": [round(v, 4) for v in lowest]})

    tenth = f"Discharge at {CAPACITY_AH * scale / 20} A for 2 hours"
    solution = run([("Rest for 5 hours", tenth)] * 9, "10 minutes")
    rested = []
    for step, cycle in enumerate(solution.cycles):
        rested.append(
            {
                "soc_ratio": round(1 - 0.1 * step, 1),
                "rested_v": round(float(cycle.steps[0]["Battery voltage [V]"].entries[-1]), 4),
            }
        )

    cases = {
        "made_with": f"PyBaMM {pybamm.__version__}, lead_acid.Full, Sulzer2019",
        "capacity_ah": CAPACITY_AH,
        "rod_ah": ROD_AH,
        "model_c20_ah": round(20 * i20, 3),
        "burns": burns,
        "rods": rods,
        "rested": rested,
    }
    Path(__file__).with_name("pybamm_cases.json").write_text(json.dumps(cases, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
