// A weld goes the way of the answers: kept on the phone, sent from there under a word of its own, so that it counts once.
"use strict";
const weld = document.getElementById("weld");
const said = document.getElementById("said");
const WELD_TEXT = ["name", "rod", "ballast", "before", "after", "after_rested", "current"];
const WELD_NUMBERS = ["bank_v", "holder_v"];
const OF_ONE_WELD = ["name", "rods", "before", "after", "after_rested", "bank_v", "current", "holder_v"];

function tell_weld(line) {
  const p = document.createElement("p");
  p.className = "told";
  p.textContent = line;
  said.append(p);
}

function typed(name) {
  return weld.elements.namedItem(name)?.value.trim() ?? "";
}

function number_of(name) {
  const text = typed(name).replace(",", ".").replace(/\s*V$/i, "");
  return text && Number.isFinite(Number(text)) ? Number(text) : null;
}

function keep_weld() {
  const bad = WELD_NUMBERS.find((name) => typed(name) && number_of(name) === null);
  if (bad) {
    tell_weld(`Not kept: ${typed(bad)} is no number of volts.`);
    return;
  }
  const entry = {
    kindOfEntry: "weld", kind: undefined, key: new_word(), by: weld.dataset.by, trip: weld.dataset.trip,
    rods: Number(typed("rods")), bank_strings: Number(typed("bank_strings")) || 1,
    bank: typed("bank").split(",").map((name) => name.trim()).filter(Boolean),
  };
  for (const name of WELD_TEXT) entry[name] = typed(name);
  for (const name of WELD_NUMBERS) if (number_of(name) !== null) entry[name] = number_of(name);
  const planned = [...document.querySelectorAll("#repairs option")].map((option) => option.value);
  entry.repair = planned.find((name) => name.toLowerCase() === entry.name.toLowerCase()) || "";
  said.replaceChildren();
  tell_weld(`${entry.name}, ${entry.rods} rods: kept on this phone, on its way.`);
  kept.put(entry);
  for (const name of OF_ONE_WELD) weld.elements.namedItem(name).value = "";
}

addEventListener("kept-sent", (event) => {
  for (const outcome of Object.values(event.detail.outcomes)) {
    if (outcome.kind !== "weld") continue;
    tell_weld(outcome.fate === "refused" ? `Not kept: ${outcome.said}` : `${outcome.said}.`);
  }
  if (event.detail.gaps) for (const line of event.detail.gaps) tell_weld(line);
});

addEventListener("kept-waits", (event) => {
  if (kept.all().some((entry) => entry.kindOfEntry === "weld" && !entry.state)) tell_weld(`Kept on this phone: ${event.detail}.`);
});

weld?.addEventListener("submit", (event) => {
  event.preventDefault();
  keep_weld();
});
