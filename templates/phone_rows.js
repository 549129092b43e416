// The rows of the check-off: each answer at once into what is kept on the phone, and what others answered meanwhile.
"use strict";
const NEWS_MS = 4000;
const rows = document.getElementById("rows");

function field(row, what) {
  return row.querySelector(`[name="${CSS.escape(`${what}:${row.dataset.key}`)}"]`);
}

function rowOf(key) {
  return rows && rows.querySelector(`fieldset[data-key="${CSS.escape(key)}"]`);
}

function waitsAbout(key) {
  return kept.all().filter((entry) => entry.key === key);
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

function entryOf(row, answer, more = {}) {
  const key = row.dataset.key;
  const at = key.indexOf(":");
  const typed = field(row, "count").value.trim();
  return {
    kindOfEntry: "check", key, kind: key.slice(0, at), thing: key.slice(at + 1), answer,
    count: answer === "counted" ? Number(typed) : undefined, of: Number(field(row, "of").value),
    was: field(row, "was").value, by: row.form.elements.by.value, trip: row.form.elements.trip.value, ...more,
  };
}

function keep(row, answer, more) {
  const typed = field(row, "count").value.trim();
  if (answer === "counted" && !/^[0-9]{1,4}$/.test(typed)) {
    say(row, typed ? "how many? a number up to 5000" : "");
    field(row, "count").focus();
    return;
  }
  row.classList.add("waiting");
  row.classList.remove("bad");
  kept.put(entryOf(row, answer, more));
}

// One row as it stands on the computer. An answer that still waits here is left as it was given.
function stand(row, now) {
  const answer = now.state.split("/")[0];
  const was = field(row, "was");
  const word = row.querySelector(".word");
  word.textContent = now.word;
  word.hidden = !now.word;
  if (waitsAbout(row.dataset.key).length) return;
  row.classList.remove("waiting", "bad");
  if (was.value !== now.state || row.dataset.unsure) {
    was.value = now.state;
    for (const radio of row.querySelectorAll("input[type=radio]")) radio.checked = radio.value === answer;
    field(row, "count").value = answer === "counted" ? now.state.split("/")[1] : "";
    delete row.dataset.unsure;
  }
  if (row.querySelector(".said").firstChild?.textContent !== now.said) say(row, now.said);
  row.querySelector(".undo").hidden = !now.state;
  if (answer && answer !== "there") row.querySelector("details").open = true;
}

function heads(said) {
  document.getElementById("status").textContent = said.status;
  const link = document.getElementById("what-is-left");
  if (link) link.textContent = `${said.left} left: show`;
  for (const bag of rows.querySelectorAll("form.bag")) {
    const all = [...bag.querySelectorAll("fieldset")];
    const left = all.filter((row) => !field(row, "was").value).length;
    document.querySelector(`[data-left="${bag.id}"]`).textContent = left ? `${left} left` : "done";
    bag.querySelector(".left").textContent = `${left} of ${all.length} left`;
  }
}

function standAll(said) {
  if (!said.rows) return;
  for (const [key, now] of Object.entries(said.rows)) {
    const row = rowOf(key);
    if (row) stand(row, now);
  }
  heads(said);
}

// Somebody found it short: whoever says otherwise looks once more, and says so.
function ask(row, entry, said) {
  row.classList.add("bad");
  row.dataset.unsure = "yes";
  say(row, said, []);
  const choice = (words, done) => {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = words;
    button.addEventListener("click", done);
    return button;
  };
  const stands = field(row, "was").value;
  row.querySelector(".said").append(
    choice("I have looked: it is so", () => keep(row, entry.answer, { sure: stands, count: entry.count })),
    choice("Leave it as it was found", () => { kept.drop(new Set([entry.word])); news(true); }),
  );
}

function showAsked() {
  for (const entry of kept.all()) {
    const row = entry.kindOfEntry === "check" && entry.state === "asked" && rowOf(entry.key);
    if (row && !row.querySelector(".said button")) ask(row, entry, entry.said);
  }
}

addEventListener("kept-sent", (event) => {
  const said = event.detail;
  standAll(said);
  for (const [word, outcome] of Object.entries(said.outcomes)) {
    const row = outcome.kind === "check" && rowOf(outcome.key);
    if (!row) continue;
    if (outcome.fate === "asked") {
      const now = said.rows[outcome.key];
      if (now) field(row, "was").value = now.state;
      const entry = kept.all().find((one) => one.word === word);
      if (entry) ask(row, entry, outcome.said);
    } else if (outcome.fate === "refused") {
      row.classList.add("bad");
      say(row, outcome.said);
    } else if (said.rows[outcome.key]) {
      const notes = outcome.said.includes(" meanwhile") || outcome.said.startsWith("Taken back") ? [`${outcome.said}.`] : [];
      const last = Object.keys(said.outcomes).at(-1) === word;
      say(row, said.rows[outcome.key].said, [...notes, ...(last ? said.gaps : [])]);
    }
  }
});

addEventListener("kept-waits", (event) => {
  for (const entry of kept.all()) {
    const row = entry.kindOfEntry === "check" && !entry.state && rowOf(entry.key);
    if (row) {
      row.classList.add("waiting");
      say(row, `${entry.answer}, kept on this phone: ${event.detail}`);
    }
  }
});

// What other phones answered since this page was shown.
async function news(all = false) {
  if (!rows || document.hidden) return;
  try {
    const since = all ? "" : rows.dataset.version;
    const answer = await fetch(`/check-off/news?since=${encodeURIComponent(since)}`, {
      headers: { Accept: "application/json" }, credentials: "same-origin",
    });
    if (!answer.ok) return;
    const said = await answer.json();
    rows.dataset.version = said.version;
    standAll(said);
  } catch {
    // no network: what is kept says so
  }
}

document.addEventListener("change", (event) => {
  const row = event.target.closest("fieldset[data-key]");
  if (!row || event.target.type === "checkbox") return;
  const count = event.target.name.startsWith("count:");
  if (count && !event.target.value.trim()) return;
  if (count) row.querySelector("input[value=counted]").checked = true;
  if (!count && event.target.value !== "counted") field(row, "count").value = "";
  keep(row, count ? "counted" : event.target.value);
});

document.addEventListener("click", (event) => {
  const undo = event.target.closest("button.undo");
  if (!undo || !rows) return;
  event.preventDefault();
  keep(undo.closest("fieldset"), "taken back");
});

document.addEventListener("submit", (event) => {
  if (event.target.classList.contains("bag")) event.preventDefault();  // each answer is on its way already
});

if (rows) {
  // What was kept before this page came, and what was chosen before this script had come.
  for (const row of rows.querySelectorAll("fieldset[data-key]")) {
    const waiting = waitsAbout(row.dataset.key).at(-1);
    const chosen = row.querySelector("input[type=radio]:checked");
    if (waiting) {
      for (const radio of row.querySelectorAll("input[type=radio]")) radio.checked = radio.value === waiting.answer;
      row.classList.add("waiting");
    } else if (chosen && !row.classList.contains("bad") && chosen.value !== field(row, "was").value.split("/")[0]) {
      keep(row, chosen.value);
    }
  }
  showAsked();
  setInterval(news, NEWS_MS);
  document.addEventListener("visibilitychange", () => news());
}
