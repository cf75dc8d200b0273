"use strict";
// SPDX-License-Identifier: MIT
// The verdicts of a book as `screen --format csv` writes them: kept as the bytes they are, and read a row at a time, so
// that a large book is never one string.

// Where each row begins, and where the last one ends (RFC 4180: a line break in quotes is none).
const rowStarts = (bytes) => {
  const starts = [0];
  let isQuoted = false;
  for (let at = 0; at < bytes.length; ++at) {
    if (bytes[at] === 0x22) isQuoted = !isQuoted;
    else if (bytes[at] === 0x0a && !isQuoted) starts.push(at + 1);
  }
  return starts;
};

// The cells of a row, or the first of them.
const cellsOf = (line, most = Infinity) => {
  const cells = [];
  let at = 0;
  for (;;) {
    let cell = "";
    if (line[at] === '"') {
      for (++at; at < line.length; ++at) {
        if (line[at] !== '"') cell += line[at];
        else if (line[at + 1] === '"') cell += line[++at];
        else break;
      }
      ++at;
    } else {
      const end = line.indexOf(",", at);
      cell = line.slice(at, end < 0 ? line.length : end);
      at += cell.length;
    }
    cells.push(cell);
    if (line[at] !== "," || cells.length === most) return cells;
    ++at;
  }
};

const VERDICTS = ["void", "undecided", "qualified", "valid"];

class Verdicts {
  constructor(bytes) {
    this.bytes = bytes;
    this.starts = rowStarts(bytes);
    this.count = Math.max(0, this.starts.length - 2);
    const head = this.count > 0 || this.starts.length > 1 ? cellsOf(this.line(-1)) : [];
    this.column = Object.fromEntries(head.map((name, index) => [name, index]));
  }
  // Of the row with that number, from 0; the headings are before it.
  line(row) {
    const text = new TextDecoder().decode(this.bytes.subarray(this.starts[row + 1], this.starts[row + 2]));
    return text.replace(/\r?\n$/, "");
  }
  // Of a row the columns that are shown, or those of them that come first.
  row(number, last = "findings") {
    const cells = cellsOf(this.line(number), this.column[last] + 1);
    const of = (name) => cells[this.column[name]] ?? "";
    return { sample: of("sample"), batch: of("batch"), verdict: of("verdict"), pump: of("pump"), findings: of("findings") };
  }
  // The samples whose rows are not, letter for letter, among those of others.
  othersThan(others) {
    const known = new Set();
    for (let number = 0; number < others.count; ++number) known.add(others.line(number));
    const samples = [];
    for (let number = 0; number < this.count; ++number) if (!known.has(this.line(number))) samples.push(this.row(number).sample);
    return samples;
  }
  // How many of each verdict; and of the batches, in the order of the book, the same.
  totals() {
    const all = { void: 0, undecided: 0, qualified: 0, valid: 0 };
    const batches = new Map();
    for (let number = 0; number < this.count; ++number) {
      const { batch, verdict } = this.row(number, "verdict");
      if (!batches.has(batch)) batches.set(batch, { batch, void: 0, undecided: 0, qualified: 0, valid: 0 });
      ++all[verdict];
      ++batches.get(batch)[verdict];
    }
    return { samples: this.count, all, batches: [...batches.values()] };
  }
  // The rows that are wanted, `most` of them from the one numbered `from` on, and how many there are in all.
  page({ verdict = "", batch = null, text = "", from = 0, most = 50 }) {
    const words = text.trim().toLowerCase();
    if (verdict === "" && batch === null && words === "") {
      const rows = Array.from({ length: Math.max(0, Math.min(most, this.count - from)) }, (_, index) => this.row(from + index));
      return { rows, count: this.count, from };
    }
    const rows = [];
    let count = 0;
    for (let number = 0; number < this.count; ++number) {
      const row = this.row(number);
      if (verdict !== "" && row.verdict !== verdict) continue;
      if (batch !== null && row.batch !== batch) continue;
      if (words !== "" && !Object.values(row).join(" ").toLowerCase().includes(words)) continue;
      if (count >= from && rows.length < most) rows.push(row);
      ++count;
    }
    return { rows, count, from };
  }
}

if (typeof module !== "undefined") module.exports = { Verdicts, VERDICTS };
