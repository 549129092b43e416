// Saves each answer at once. Without it every bag has its Save button, and the page does the same.
"use strict";
let waiting = Promise.resolve();

function say(row, first, lines = []) {
  const boxed = lines.map((line) => {
    const p = document.createElement("p");
    p.className = "told";
    p.textContent = line;
    return p;
  });
  row.querySelector(".said").replaceChildren(first, ...boxed);
}

async function save(row) {
  const key = row.dataset.key;
  const field = (name) => row.querySelector(`[name="${CSS.escape(name)}"]`);
  const chosen = row.querySelector("input[type=radio]:checked");
  if (!chosen) return;
  const count = field(`count:${key}`);
  if (chosen.value === "counted" && !count.value.trim()) { count.focus(); return; }
  const sent = new URLSearchParams();
  sent.set("by", row.form.elements.by.value);
  sent.set(`was:${key}`, field(`was:${key}`).value);
  sent.set(`answer:${key}`, chosen.value);
  sent.set(`count:${key}`, count.value);
  try {
    const answer = await fetch("/check-off", {
      method: "POST", body: sent, headers: { Accept: "application/json" }, credentials: "same-origin",
      keepalive: true,
    });
    const kept = await answer.json().catch(() => ({ message: "this page is from an earlier run, scan the code again" }));
    if (!answer.ok) throw new Error(kept.message);
    row.classList.toggle("bad", key in kept.wrong);
    if (key in kept.wrong) { say(row, kept.wrong[key]); return; }
    field(`was:${key}`).value = kept.rows[key] ? kept.rows[key].state : field(`was:${key}`).value;
    say(row, kept.rows[key] ? kept.rows[key].said : "", [...kept.notes.map((line) => `${line}.`), ...kept.gaps]);
    row.querySelector(".undo").hidden = !field(`was:${key}`).value;
    document.getElementById("status").textContent = kept.status;
    let left = 0;
    for (const each of row.form.querySelectorAll('[name^="was:"]')) if (!each.value) left += 1;
    const rows = row.form.querySelectorAll("fieldset").length;
    row.form.querySelector(".left").textContent = `${left} of ${rows} left`;
  } catch (error) {
    row.classList.add("bad");
    say(row, `Not saved: ${error instanceof TypeError ? "no answer" : error.message}. Try again, or use Save below.`);
  }
}

function keep(row) {
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

// What was chosen before this script had come.
for (const row of document.querySelectorAll("fieldset[data-key]:not(.bad)")) {
  const chosen = row.querySelector("input[type=radio]:checked");
  if (chosen && chosen.value !== row.querySelector('[name^="was:"]').value.split("/")[0]) keep(row);
}
