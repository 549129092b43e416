// What is tapped or typed is kept on this phone first and sent from there: without a network nothing is lost, and what
// was sent but not heard of is sent again under the same word, so that it counts once.
"use strict";
document.documentElement.classList.add("script");
const KEPT = "kitlist-kept";
const WAIT_MS = 15000;
const AGAIN_MS = 4000;
const AT_ONCE = 40;  // entries in one form: far below the 64 kB that the page takes

const kept = {
  inMemory: [],  // where the browser keeps nothing, as in a private window
  stores: true,

  all() {
    try {
      return JSON.parse(localStorage.getItem(KEPT) || "[]");
    } catch {
      return this.inMemory;
    }
  },

  write(entries) {
    this.inMemory = entries;
    try {
      localStorage.setItem(KEPT, JSON.stringify(entries));
    } catch {
      this.stores = false;
    }
    show();
  },

  // One more entry. What waits about the same thing and was not sent yet gives way to it.
  put(entry) {
    const waits = (other) => other.key === entry.key && !sending.has(other.word) && entry.kind !== "reading";
    const whole = { ...entry, word: new_word(), at: local_moment(new Date()) };
    this.write([...this.all().filter((other) => !waits(other)), whole]);
    send();
    return whole;
  },

  drop(words) {
    this.write(this.all().filter((entry) => !words.has(entry.word)));
  },

  mark(word, state, said) {
    this.write(this.all().map((entry) => (entry.word === word ? { ...entry, state, said } : entry)));
  },
};
const sending = new Set();
let trouble = "";
let timer = 0;

async function send() {
  clearTimeout(timer);
  if (sending.size || document.body.hasAttribute("data-again")) return;
  const batch = kept.all().filter((entry) => !entry.state).slice(0, AT_ONCE);
  if (!batch.length) return;
  for (const entry of batch) sending.add(entry.word);
  const giveUp = new AbortController();
  const late = setTimeout(() => giveUp.abort(), WAIT_MS);
  try {
    const answer = await fetch("/kept", {
      method: "POST", body: new URLSearchParams({ text: as_text(batch, {}) }), headers: { Accept: "application/json" },
      credentials: "same-origin", keepalive: true, signal: giveUp.signal,
    });
    if (answer.status === 403) throw new Error("this page was started anew: scan the code again");
    const said = await answer.json();
    if (!answer.ok) throw new Error(said.message);
    trouble = "";
    sending.clear();
    const settled = new Set();
    for (const [word, outcome] of Object.entries(said.outcomes)) {
      if (outcome.fate === "taken" || outcome.fate === "already") settled.add(word);
      else kept.mark(word, outcome.fate, outcome.said);
    }
    kept.drop(settled);
    dispatchEvent(new CustomEvent("kept-sent", { detail: said }));
  } catch (error) {
    trouble = error instanceof TypeError || error.name === "AbortError" ? "no network" : error.message;
    sending.clear();
    dispatchEvent(new CustomEvent("kept-waits", { detail: trouble }));
  } finally {
    clearTimeout(late);
    sending.clear();
  }
  show();
  if (kept.all().some((entry) => !entry.state)) timer = setTimeout(send, trouble ? AGAIN_MS : 0);
}

// The strip that says what is kept here, why, and how to carry it over by hand.
function show() {
  const strip = document.getElementById("kept");
  const entries = kept.all();
  const waits = entries.filter((entry) => !entry.state);
  const refused = entries.filter((entry) => entry.state === "refused");
  const again = document.body.hasAttribute("data-again");
  strip.hidden = !((waits.length && (trouble || again || !kept.stores)) || refused.length);
  if (strip.hidden) { strip.replaceChildren(); return; }
  if (!strip.firstChild) build(strip);
  const parts = [];
  if (waits.length) {
    const where = kept.stores ? "kept on this phone" : "kept only while this page stays open";
    const why = again ? "scan the code again" : trouble || "sending";
    parts.push(`${waits.length} ${waits.length === 1 ? "answer" : "answers"} not sent yet, ${where}: ${why}.`);
  }
  for (const entry of refused) parts.push(`Not taken: ${entry.thing || entry.battery || entry.name}: ${entry.said}.`);
  strip.querySelector("p").textContent = parts.join(" ");
  strip.querySelector(".forget").hidden = !refused.length;
  strip.querySelector("textarea").value = as_text(entries, {});
}

function build(strip) {
  const p = document.createElement("p");
  p.setAttribute("aria-live", "polite");
  const forget = document.createElement("button");
  forget.className = "forget";
  forget.textContent = "Seen: forget what was not taken";
  forget.addEventListener("click", () => kept.write(kept.all().filter((entry) => entry.state !== "refused")));
  const details = document.createElement("details");
  const summary = document.createElement("summary");
  summary.textContent = "Copy them as text";
  const text = document.createElement("textarea");
  text.readOnly = true;
  text.setAttribute("aria-label", "What is kept, as text");
  const copy = document.createElement("button");
  copy.textContent = "Copy";
  copy.addEventListener("click", () => {
    text.select();
    document.execCommand("copy");  // the newer way is not open to a page without a certificate
    copy.textContent = "Copied";
  });
  details.append(summary, text, copy);
  strip.append(p, forget, details);
}

addEventListener("beforeunload", (event) => {
  if (kept.all().some((entry) => !entry.state) && (trouble || !kept.stores)) event.preventDefault();
});
addEventListener("online", () => { send(); });
document.addEventListener("visibilitychange", () => { if (!document.hidden) send(); });
addEventListener("storage", (event) => { if (event.key === KEPT) show(); });
show();
send();
