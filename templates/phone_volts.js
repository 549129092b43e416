// Readings go the way of the answers: kept on the phone, sent from there; what is typed and not recorded stays typed.
"use strict";
const DRAFT = "kitlist-volts";
const form = document.getElementById("volts");

function read(name) {
  return form.elements.namedItem(name)?.value.trim() ?? "";
}

function box(battery) {
  return form.querySelector(`[data-battery="${CSS.escape(battery)}"]`);
}

function tell(battery, line) {
  const p = document.createElement("p");
  p.className = "told";
  p.textContent = line;
  box(battery)?.querySelector(".said").replaceChildren(p);
}

function draft(write) {
  try {
    if (write) localStorage.setItem(DRAFT, JSON.stringify([...new FormData(form)].filter(([name]) => name !== "form")));
    return JSON.parse(localStorage.getItem(DRAFT) || "[]");
  } catch {
    return [];
  }
}

function record() {
  const shared = {
    rested: read("rested"), battery_temp: read("battery_temp"),
    charging: form.elements.charging.checked, quick_load: form.elements.quick_load.checked,
  };
  let wrong = null;
  for (const fieldset of form.querySelectorAll("[data-battery]")) {
    const battery = fieldset.dataset.battery;
    const [volts, load] = [read(`volts:${battery}`), read(`load:${battery}`)];
    if (!volts && !load) continue;
    if (!volts) {
      tell(battery, "Not recorded: amperes without volts.");
      wrong = wrong || fieldset;
      continue;
    }
    tell(battery, `${volts}: kept on this phone, on its way.`);
    kept.put({ kindOfEntry: "reading", kind: undefined, key: battery, battery, volts, load, by: form.dataset.by, ...shared });
    form.elements.namedItem(`volts:${battery}`).value = "";
    form.elements.namedItem(`load:${battery}`).value = "";
  }
  draft(true);
  wrong?.scrollIntoView({ block: "center" });
}

addEventListener("kept-sent", (event) => {
  const back = new Set();
  for (const [word, outcome] of Object.entries(event.detail.outcomes)) {
    if (!outcome.kind.startsWith("reading") || !box(outcome.key)) continue;
    const entry = kept.all().find((one) => one.word === word);
    if (outcome.fate === "refused" && entry) {  // it goes back into its box, to be put right
      form.elements.namedItem(`volts:${outcome.key}`).value = entry.volts || "";
      form.elements.namedItem(`load:${outcome.key}`).value = entry.load || "";
      back.add(word);
      tell(outcome.key, `Not recorded: ${outcome.said}`);
      continue;
    }
    tell(outcome.key, outcome.said);
    const undo = box(outcome.key).querySelector("button.undo");
    if (undo && outcome.reading) {
      undo.value = outcome.reading;
      undo.hidden = false;
      undo.firstChild.textContent = "Take back this one";
    }
  }
  if (back.size) kept.drop(back);
  draft(true);
});

addEventListener("kept-waits", (event) => {
  for (const entry of kept.all()) {
    if (entry.kindOfEntry === "reading" && box(entry.battery)) tell(entry.battery, `${entry.volts}: kept on this phone: ${event.detail}.`);
  }
});

if (form) {
  for (const [name, value] of draft(false)) {
    const input = form.elements.namedItem(name);
    if (input && "value" in input && !input.value && input.type !== "hidden") input.value = value;
    else if (input && input.type === "checkbox") input.checked = true;
  }
  form.addEventListener("input", () => draft(true));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const undo = event.submitter?.classList.contains("undo") ? event.submitter : null;
    if (!undo) { record(); return; }
    const at = undo.value.lastIndexOf("@");
    const battery = undo.value.slice(0, at);
    tell(battery, "Taking back: kept on this phone, on its way.");
    kept.put({ kindOfEntry: "reading_back", key: battery, battery, taken_at: undo.value.slice(at + 1) });
    undo.hidden = true;
  });
}
