// Saves each answer at once. Without it every bag has its Save button, and the page does the same.
"use strict";
const WAIT_MS = 15000;
const unsaved = new Set();  // chosen, and not known to be kept
const queued = new Set();  // of these, not sent yet
let waiting = Promise.resolve();

function sayUnsaved() {
  document.getElementById("unsaved").textContent = unsaved.size ? `${unsaved.size} not saved` : "";
}

function say(row, first, lines = []) {
  const boxed = lines.map((line) => {
    const p = document.createElement("p");
    p.className = "told";
    p.textContent = line;
    return p;
  });
  row.querySelector(".said").replaceChildren(first, ...boxed);
}

function typed(row) {
  const key = row.dataset.key;
  const field = (name) => row.querySelector(`[name="${CSS.escape(name)}"]`);
  const chosen = row.querySelector("input[type=radio]:checked");
  const count = field(`count:${key}`);
  if (!chosen || (chosen.value === "counted" && !count.value.trim())) return null;
  row.sent = chosen.value;
  return new URLSearchParams([
    ["by", row.form.elements.by.value], ["trip", row.form.elements.trip.value],
    [`was:${key}`, field(`was:${key}`).value], [`of:${key}`, field(`of:${key}`).value],
    [`answer:${key}`, chosen.value], [`count:${key}`, count.value],
  ]);
}

function post(body, signal) {
  return fetch("/check-off", {
    method: "POST", body, headers: { Accept: "application/json" }, credentials: "same-origin", keepalive: true, signal,
  });
}

async function save(row) {
  if (!queued.delete(row)) return;
  const key = row.dataset.key;
  const was = row.querySelector(`[name="${CSS.escape(`was:${key}`)}"]`);
  const body = typed(row);
  if (!body) { row.querySelector('[name^="count:"]').focus(); return; }
  const giveUp = new AbortController();
  const timer = setTimeout(() => giveUp.abort(), WAIT_MS);
  try {
    const answer = await post(body, giveUp.signal);
    const kept = await answer.json().catch(() => ({ message: "this page is from an earlier run, scan the code again" }));
    if (!answer.ok) throw new Error(kept.message);
    row.classList.toggle("bad", key in kept.wrong);
    if (key in kept.wrong) { say(row, kept.wrong[key]); return; }
    was.value = kept.rows[key].state;
    if (!queued.has(row)) unsaved.delete(row);
    say(row, kept.rows[key].said, [...kept.notes.map((line) => `${line}.`), ...kept.gaps]);
    row.querySelector(".undo").hidden = !was.value;
    document.getElementById("status").textContent = kept.status;
    let left = 0;
    for (const each of row.form.querySelectorAll('[name^="was:"]')) if (!each.value) left += 1;
    const rows = row.form.querySelectorAll("fieldset").length;
    row.form.querySelector(".left").textContent = `${left} of ${rows} left`;
  } catch (error) {
    row.classList.add("bad");
    const why = error instanceof TypeError || error.name === "AbortError" ? "no answer" : error.message;
    say(row, `Not saved: ${why}. Tap it again, or use Save below.`);
  } finally {
    clearTimeout(timer);
    sayUnsaved();
  }
}

function keep(row) {
  unsaved.add(row);
  setTimeout(sayUnsaved, 700);
  if (queued.has(row)) return;
  queued.add(row);
  waiting = waiting.then(() => save(row)).catch(() => {});
}

document.addEventListener("change", (event) => {
  const row = event.target.closest("fieldset[data-key]");
  if (!row) return;
  const count = event.target.name.startsWith("count:");
  if (count && event.target.value.trim()) row.querySelector("input[value=counted]").checked = true;
  if (!count && event.target.value !== "counted") row.querySelector('[name^="count:"]').value = "";
  keep(row);
});

// The same answer again, where it did not arrive: that changes nothing, so that only the tap is heard.
document.addEventListener("click", (event) => {
  const row = event.target.closest("fieldset.bad");
  if (row && event.target.type === "radio" && event.target.value === row.sent) keep(row);
});

// A form that is sent has all its answers; what waits in another is sent on the way out.
document.addEventListener("submit", (event) => {
  for (const row of [...queued]) if (row.form === event.target) queued.delete(row);
});
addEventListener("pagehide", () => {
  for (const row of queued) {
    const body = typed(row);
    if (body) post(body).catch(() => {});
  }
  queued.clear();
});

// What was chosen before this script had come.
for (const row of document.querySelectorAll("fieldset[data-key]:not(.bad)")) {
  const chosen = row.querySelector("input[type=radio]:checked");
  if (chosen && chosen.value !== row.querySelector('[name^="was:"]').value.split("/")[0]) keep(row);
}
