// The pocket page at work: live numbers while this browser agrees with Python, ticks, and what goes back to the laptop.
"use strict";
(() => {
  const source = document.getElementById("data");
  const data = JSON.parse(source.textContent);
  const by_id = (id) => document.getElementById(id);
  document.documentElement.classList.add("script");

  // A digest over data and script: a page that was cut short or changed shows no number.
  function sha256(text) {
    const bytes = new TextEncoder().encode(text);
    const primes = [];
    for (let n = 2; primes.length < 64; n += 1) if (primes.every((p) => n % p)) primes.push(n);
    const part = (value) => Math.floor((value - Math.floor(value)) * 2 ** 32) >>> 0;
    const constants = primes.map((p) => part(Math.cbrt(p)));
    const state = primes.slice(0, 8).map((p) => part(Math.sqrt(p)));
    const padded = new Uint8Array(Math.ceil((bytes.length + 9) / 64) * 64);
    padded.set(bytes);
    padded[bytes.length] = 0x80;
    const view = new DataView(padded.buffer);
    view.setUint32(padded.length - 8, Math.floor(bytes.length / 2 ** 29));
    view.setUint32(padded.length - 4, (bytes.length * 8) >>> 0);
    const turn = (x, n) => (x >>> n) | (x << (32 - n));
    const w = new Uint32Array(64);
    for (let at = 0; at < padded.length; at += 64) {
      for (let i = 0; i < 16; i += 1) w[i] = view.getUint32(at + 4 * i);
      for (let i = 16; i < 64; i += 1) {
        const [x, y] = [w[i - 15], w[i - 2]];
        w[i] = w[i - 16] + (turn(x, 7) ^ turn(x, 18) ^ (x >>> 3)) + w[i - 7] + (turn(y, 17) ^ turn(y, 19) ^ (y >>> 10));
      }
      let [a, b, c, d, e, f, g, h] = state;
      for (let i = 0; i < 64; i += 1) {
        const first = (h + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) + ((e & f) ^ (~e & g)) + constants[i] + w[i]) >>> 0;
        const second = ((turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) >>> 0;
        [h, g, f, e, d, c, b, a] = [g, f, e, (d + first) >>> 0, c, b, a, (first + second) >>> 0];
      }
      [a, b, c, d, e, f, g, h].forEach((value, i) => { state[i] = (state[i] + value) >>> 0; });
    }
    return state.map((word) => word.toString(16).padStart(8, "0")).join("");
  }

  const whole = sha256(source.textContent + by_id("script").textContent) === source.dataset.digest;
  let differs = [];
  try {
    differs = self_check(data);
  } catch (error) {
    differs = [error.message];
  }
  const agrees = whole && !differs.length;
  if (!agrees) {
    by_id("no-numbers").hidden = false;
    by_id("no-numbers").textContent = whole
      ? "No live numbers: this browser computes otherwise than the laptop. Use the tables."
      : "No live numbers: this file is not as it was made. Make it again: kitlist print pocket.";
  }
  const own = agrees ? reckoning(data) : null;
  document.body.dataset.agrees = agrees ? "yes" : "no";

  // What is kept on this phone, under the kit that the page was made from.
  const KEY = `kitlist-pocket ${data.trip} ${data.kit}`;
  const empty = () => ({ entries: [], ticks: {}, typed: {}, theme: "", by: "" });
  let kept = empty();
  let stores = true;
  try {
    kept = { ...kept, ...JSON.parse(localStorage.getItem(KEY) || "{}") };
    localStorage.setItem(KEY, JSON.stringify(kept));
  } catch {
    stores = false;
  }
  by_id("storage").hidden = stores;

  function write() {
    try {
      localStorage.setItem(KEY, JSON.stringify(kept));
    } catch {
      stores = false;
      by_id("storage").hidden = false;
    }
    show_kept();
  }

  function keep(entry) {
    kept.entries = kept.entries.filter((other) => !entry.key || other.key !== entry.key);
    kept.entries.push({ ...entry, by: kept.by, word: new_word(), at: local_moment(new Date()) });
    write();
  }

  function show_kept() {
    const count = kept.entries.length;
    by_id("kept-count").textContent = count ? `${count} ${count === 1 ? "entry" : "entries"}` : "Nothing yet.";
    by_id("text").value = count ? as_text(kept.entries, { trip: data.trip, kit: data.kit }) : "";
  }

  // "−6,5" as a person types it; null for an empty box, NaN for no number.
  function number_in(input) {
    const typed = input.value.trim().replace("−", "-").replace(",", ".");
    if (!typed) return null;
    return /^-?\d{1,4}(\.\d{1,4})?$/.test(typed) ? Number(typed) : NaN;
  }

  const volts = [...document.querySelectorAll("[data-volts]")];
  const remembered = [...document.querySelectorAll("#typed input")];

  function given() {
    const [rested_h, air_c, battery_temp_c] = ["rested", "air", "own"].map((id) => number_in(by_id(id)));
    const bead = bead_typed();
    return { volts: volts.map(number_in), rested_h, bled: by_id("bled").checked, battery_temp_c, air_c, bead };
  }

  function bead_typed() {
    if (!by_id("rest_v")) return null;
    const [rest_v, bank_v, current_a, holder_v] = ["rest_v", "bank_v", "current_a", "holder_v"].map((id) => number_in(by_id(id)));
    return [rest_v, bank_v, current_a].includes(null) ? null : { rest_v, bank_v, current_a, holder_v };
  }

  const percent = (ratio) => Math.round(ratio * 100);

  function says_of(battery, at) {
    if (!battery.charge) return "";
    const { soc_ratio, reason } = battery.charge;
    if (!soc_ratio) return `Charge not known: ${reason}.`;
    const [low, high] = [percent(soc_ratio.low), percent(soc_ratio.high)];
    const engine = { true: " Starts its engine in the cold.", false: " Does NOT start its engine in the cold." }[battery.starts];
    const unsure = data.batteries[at].floor.cranking && battery.starts === null ? " Whether its engine starts is not known." : "";
    const keeps = battery.keeps === null ? "" : `; keeps ${Math.ceil(Math.min(1, battery.keeps) * 100)}\u00a0%`;
    return `Charged ${low === high ? low : `${low} to ${high}`}\u00a0%${keeps}.${engine || unsure}`;
  }

  function line(parent, tag, text, kind = "") {
    const element = document.createElement(tag);
    element.textContent = text;
    if (kind) element.className = kind;
    parent.append(element);
    return element;
  }

  function show_numbers() {
    kept.typed = Object.fromEntries(remembered.map((input) => [input.id || `v${input.dataset.volts}`, input.type === "checkbox" ? input.checked : input.value]));
    write();
    if (!own) return;
    const asked = given();
    const box = by_id("answer");
    box?.replaceChildren();
    if (by_id("bead-says")) by_id("bead-says").textContent = "";
    const numbers = [...asked.volts, asked.rested_h, asked.air_c, asked.battery_temp_c, ...Object.values(asked.bead || {})];
    if (numbers.some(Number.isNaN)) {
      for (const [at] of volts.entries()) document.querySelector(`[data-says="${at}"]`).textContent = "";
      if (box) line(box, "p", "One of the boxes holds no number, so nothing is computed.", "big");
      return;
    }
    if (asked.bead) {
      try {
        own.learn({ ...asked.bead, in_series: data.rig.in_series, in_parallel: data.rig.in_parallel });
      } catch (error) {
        by_id("bead-says").textContent = `This bead is not counted: ${error.message}.`;
        asked.bead = null;
      }
    }
    let found;
    try {
      found = own.answer(asked);
    } catch (error) {
      if (!(error instanceof own.OutOfRange)) throw error;
      if (box) line(box, "p", `Not known: ${error.message}.`, "big");
      return;
    }
    found.batteries.forEach((battery, at) => {
      document.querySelector(`[data-says="${at}"]`).textContent = says_of(battery, at);
    });
    found.kinds.forEach((kind, at) => {
      const { words, range_a } = data.kinds[at];
      line(box, "h3", words);
      const rods = kind.rods ? `${kind.rods.sure} sure, likely ${kind.rods.likely} rods` : "rods not known: read every battery of the bank";
      line(box, "p", kind.rods && kind.rods.on ? `${rods} (${kind.rods.on} has least)` : rods, "big");
      const { low_a, middle_a, high_a, no_arc_ratio } = kind.band;
      const amps = middle_a > 0 ? `${Math.round(low_a)} to ${Math.round(high_a)}\u00a0A, likely ${Math.round(middle_a)}` : "no arc to hold";
      const none = no_arc_ratio >= 0.005 ? `; no arc in ${percent(no_arc_ratio)}\u00a0% of cases` : "";
      line(box, "p", `${amps}${none}${kind.fit ? `: ${kind.fit}` : ""}${range_a ? ` (rod ${range_a[0]} to ${range_a[1]}\u00a0A)` : ""}`);
    });
  }

  // Ticks.
  const rows = [...document.querySelectorAll("fieldset.item")];

  function show_ticks() {
    for (const row of rows) {
      const tick = kept.ticks[row.dataset.key];
      for (const radio of row.querySelectorAll("input[type=radio]")) radio.checked = Boolean(tick) && radio.value === tick.answer;
      const many = row.querySelector(".howmany input");
      many.value = tick && tick.answer === "counted" ? tick.count : "";
      if (tick && tick.answer !== "there") row.querySelector("details").open = true;
      row.querySelector(".said").textContent = tick ? `${tick.answer === "counted" ? `${tick.count} of ${row.dataset.of}` : tick.answer === "home" ? "left at home" : tick.answer}${kept.by ? `, ${kept.by}` : ""}` : "";
    }
    const done = rows.filter((row) => kept.ticks[row.dataset.key]).length;
    by_id("ticked").textContent = `${done} of ${rows.length}, ${rows.length - done} left`;
  }

  function tick(row, answer) {
    const many = row.querySelector(".howmany input").value.trim();
    if (answer === "counted" && !/^\d{1,4}$/.test(many)) {
      row.querySelector(".howmany input").focus();
      return;
    }
    if (!kept.by) {
      row.querySelector(".said").textContent = "Who checks? Write a name above first.";
      for (const radio of row.querySelectorAll("input[type=radio]")) radio.checked = false;
      by_id("by").focus();
      return;
    }
    const key = row.dataset.key, at = key.indexOf(":");
    const count = answer === "counted" ? Number(many) : undefined;
    kept.ticks[key] = { answer, count };
    keep({ kindOfEntry: "check", key, kind: key.slice(0, at), thing: key.slice(at + 1), answer, count, of: Number(row.dataset.of) });
    show_ticks();
  }

  document.addEventListener("change", (event) => {
    const row = event.target.closest("fieldset.item");
    if (!row) return;
    if (event.target.type === "radio") tick(row, event.target.value);
    else if (event.target.value.trim()) tick(row, "counted");
  });

  // What goes back.
  function keep_readings() {
    const { volts: read, rested_h, bled, battery_temp_c } = given();
    let count = 0;
    read.forEach((value, at) => {
      if (value === null || Number.isNaN(value)) return;
      count += 1;
      keep({
        kindOfEntry: "reading", battery: data.batteries[at].name, volts: String(value), quick_load: bled,
        rested: rested_h === null ? "" : `${rested_h}h`, battery_temp: battery_temp_c === null ? "" : `${battery_temp_c}C`,
      });
    });
    by_id("keep-readings").textContent = count ? `Kept ${count}: see Back` : "Type the volts first";
  }

  const linked = { bank: data.bank, bank_strings: data.bank_strings };

  function keep_bead() {
    const bead = bead_typed();
    if (!bead || by_id("bead-says").textContent) return;
    const { holder_v, ...read } = bead;
    keep({ kindOfEntry: "bead", ...linked, ...read, ...(holder_v === null ? {} : { holder_v }) });
    by_id("keep-bead").textContent = "Kept: see Back";
  }

  function burned(rod) {
    return kept.entries.filter((entry) => entry.kindOfEntry === "weld" && entry.rod === rod).reduce((sum, entry) => sum + entry.rods, 0);
  }

  function keep_weld() {
    const rods = number_in(by_id("weld-rods")), rod = by_id("weld-rod").value;
    const [before_v, after_v] = [number_in(by_id("before_v")), number_in(by_id("after_v"))];
    if (!Number.isInteger(rods) || rods < 1 || Number.isNaN(before_v) || Number.isNaN(after_v)) {
      by_id("weld-says").textContent = "How many rods? A whole number, and volts as numbers.";
      return;
    }
    keep({ kindOfEntry: "weld", ...linked, rod, rods, ...(before_v === null ? {} : { before_v }), ...(after_v === null ? {} : { after_v }) });
    by_id("weld-rods").value = "";
    show_left();
  }

  function show_left() {
    const rod = by_id("weld-rod").value;
    const gone = burned(rod);
    by_id("weld-says").textContent = rod ? `${rod}: ${gone} burned as kept here, ${Math.max(0, data.packed[rod] - gone)} left of ${data.packed[rod]}.` : "";
  }

  function keep_used() {
    const amount = by_id("used-amount").value.trim();
    if (!/^\d{1,4}([.,]\d{1,2})?\s?[lL]?$/.test(amount)) { by_id("used-amount").focus(); return; }
    keep({ kindOfEntry: "used", thing: by_id("used-thing").value, amount: amount.replace(",", ".") });
    by_id("used-amount").value = "";
  }

  function fill_list(select, names) {
    for (const name of names) {
      const option = document.createElement("option");
      option.value = option.textContent = name;
      select.append(option);
    }
  }

  function theme(chosen) {
    document.documentElement.classList.remove("day", "night");
    if (chosen) document.documentElement.classList.add(chosen);
    for (const button of document.querySelectorAll("[data-theme]")) button.setAttribute("aria-pressed", button.dataset.theme === chosen);
  }

  function save_file() {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([by_id("text").value], { type: "application/toml" }));
    link.download = "pocket.toml";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  }

  fill_list(by_id("weld-rod"), Object.keys(data.packed));
  fill_list(by_id("used-thing"), rows.map((row) => row.dataset.key).filter((key) => !key.startsWith("rod:")).map((key) => key.slice(key.indexOf(":") + 1)));
  for (const input of remembered) {
    const typed = kept.typed[input.id || `v${input.dataset.volts}`];
    if (input.type === "checkbox") input.checked = Boolean(typed);
    else if (typed) input.value = typed;
  }
  by_id("by").value = kept.by;
  by_id("by").addEventListener("input", (event) => { kept.by = event.target.value.trim(); write(); });
  by_id("typed").addEventListener("input", show_numbers);
  by_id("typed").addEventListener("submit", (event) => event.preventDefault());
  by_id("keep-readings").addEventListener("click", keep_readings);
  by_id("keep-bead")?.addEventListener("click", keep_bead);
  by_id("keep-weld").addEventListener("click", keep_weld);
  by_id("weld-rod").addEventListener("change", show_left);
  by_id("keep-used").addEventListener("click", keep_used);
  by_id("save").addEventListener("click", save_file);
  by_id("copy").addEventListener("click", () => {
    by_id("text").select();
    document.execCommand("copy");
    by_id("copy").textContent = "Copied";
  });
  by_id("forget").addEventListener("click", () => {
    if (!confirm("Is all of it on the laptop? It is gone from this phone then.")) return;
    kept.entries = [];
    write();
  });
  for (const button of document.querySelectorAll("[data-theme]")) {
    button.addEventListener("click", () => { kept.theme = button.dataset.theme; theme(kept.theme); write(); });
  }
  addEventListener("beforeunload", (event) => { if (!stores && kept.entries.length) event.preventDefault(); });
  theme(kept.theme);
  show_ticks();
  show_left();
  show_numbers();
})();
