// What a phone brings back, as the one text that the paste box and `kitlist import` read.
"use strict";
const TEXT_FIELDS = ["kind", "thing", "answer", "was", "sure", "battery", "volts", "rested", "battery_temp", "load", "taken_at",
  "rod", "repair", "amount", "name", "ballast", "before", "after", "after_rested", "current"];
const WHOLE_FIELDS = ["count", "of", "rods"];
const NUMBER_FIELDS = ["rest_v", "bank_v", "current_a", "holder_v", "before_v", "after_v"];
const YES_FIELDS = ["charging", "quick_load"];

function new_word() {
  const bytes = crypto.getRandomValues(new Uint8Array(10));
  return [...bytes].map((byte) => (byte % 36).toString(36)).join("");
}

function local_moment(date) {
  return new Date(date.getTime() - date.getTimezoneOffset() * 60000).toISOString().slice(0, 19);
}

function as_text(entries, { trip, kit }) {
  const quoted = (value) => JSON.stringify(String(value)).replaceAll("\u007f", "\\u007F");
  const number = (value) => (Number.isInteger(value) ? `${value}.0` : String(value));
  const lines = ["[pocket]", "format = 1", `written_at = ${local_moment(new Date())}`];
  if (trip) lines.push(`trip = ${quoted(trip)}`);
  if (kit) lines.push(`kit = ${quoted(kit)}`);
  for (const entry of entries) {
    lines.push("", `[[${entry.kindOfEntry}]]`, `word = ${quoted(entry.word)}`, `at = ${entry.at}`);
    if (entry.by) lines.push(`by = ${quoted(entry.by)}`);
    if (entry.trip) lines.push(`trip = ${quoted(entry.trip)}`);
    for (const field of TEXT_FIELDS) if (entry[field]) lines.push(`${field} = ${quoted(entry[field])}`);
    for (const field of WHOLE_FIELDS) if (Number.isInteger(entry[field])) lines.push(`${field} = ${entry[field]}`);
    for (const field of NUMBER_FIELDS) if (Number.isFinite(entry[field])) lines.push(`${field} = ${number(entry[field])}`);
    for (const field of YES_FIELDS) if (entry[field]) lines.push(`${field} = true`);
    if (entry.bank) lines.push(`bank = [${entry.bank.map(quoted).join(", ")}]`, `bank_strings = ${entry.bank_strings}`);
  }
  return `${lines.join("\n")}\n`;
}
