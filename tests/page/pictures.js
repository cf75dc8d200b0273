// SPDX-License-Identifier: MIT
// pictures.js PROGRAM BUILD: every picture of the demo book as gnuplot draws it for the program, and as the page draws it
// itself: the same words, marks, lines and areas, in the same places and colours. Prints what differs; status 0 where
// nothing does, 77 where there is no page or no gnuplot. What is let pass is in LITTLE.
"use strict";
const fs = require("fs");
const path = require("path");
const { NOTHING_TO_COMPARE, filesBelow, hasGnuplot, moduleIn, programAt, root } = require("./module.js");

const [program, build] = process.argv.slice(2);
process.chdir(root);
const MADE = fs.mkdtempSync("/tmp/page-pictures-");
const LITTLE = 0.3; // pixels: gnuplot rounds places to hundredths, sizes of letters to whole units of its own
const DRAWN = [
  ["history", "docs/demo", "--as-of", "2026-11-16", "--out"],
  ["history", "docs/demo", "--as-of", "2026-11-16", "--theme", "dark", "--out"],
  ["explain", "docs/demo", "TF44A-6", "--as-of", "2026-11-16", "--theme", "print", "--charts"],
];

const numbers = (text) => (text.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
// "rgb( 11,  79, 138)" and "#0b4f8a" as "11,79,138".
const colourOf = (text) => (text.startsWith("#") ? [1, 3, 5].map((at) => parseInt(text.slice(at, at + 2), 16)) : numbers(text)).join();
const textOf = (xml) => xml.replace(/&#39;/g, "'").replace(/&quot;/g, '"').replace(/&lt;/g, "<").replace(/&gt;/g, ">").replace(/&amp;/g, "&");

// What an SVG draws. Either writes an element's attributes itself, or those that several have around them.
const drawingOf = (svg) => {
  const words = [];
  const marks = [];
  const lines = [];
  const areas = [];
  let around = {};
  let drawn = new Set();
  const body = svg.slice(svg.indexOf("</defs>"));
  const ground = colourOf(/<rect[^>]*fill=["']([^"']*)/.exec(svg)[1]); // gnuplot gives bars marks of that colour, below others
  for (const { index, 0: whole, 1: element, 2: inside } of body.matchAll(/<(g|path|polygon|use|text)\b([^>]*)>/g)) {
    const own = Object.fromEntries([...inside.matchAll(/([\w:-]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g)].map(([, name, one, other]) => [name, one ?? other]));
    const all = { ...around, ...own };
    if (element === "g") around = own.stroke === "none" && around["stroke-width"] ? { ...around, ...own } : own;
    if (element === "text") {
      const begin = index + whole.length;
      words.push({ text: textOf(body.slice(begin, body.indexOf("</text>", begin))), all });
    }
    if (element === "use" && colourOf(own.color) !== ground) marks.push({ what: own["xlink:href"] + " " + colourOf(own.color), at: numbers(own.transform) });
    if (element === "path" && own.d && !drawn.has(own.stroke + own.d)) {
      drawn.add(own.stroke + own.d); // gnuplot draws its axes twice
      lines.push({ colour: colourOf(own.stroke), width: Number(all["stroke-width"]), dashes: numbers(own["stroke-dasharray"] ?? ""), d: own.d });
    }
    if (element === "polygon") {
      const points = numbers(own.points);
      areas.push({ colour: colourOf(own.fill), points });
      const corners = [...points, points[0], points[1]].map((figure, i) => (i % 2 === 0 ? (i === 0 ? "M" : "L") + figure : "," + figure)).join("");
      if (own.stroke && own.stroke !== "none") lines.push({ colour: colourOf(own.stroke), width: 1, dashes: [], d: corners });
    }
  }
  return { words: words.map(({ text, all }) => ({ what: [text, all["text-anchor"], colourOf(all.fill)].join(" | "), at: [...numbers(all.transform).slice(0, 2), Number(all["font-size"])] })).filter(({ what }) => !what.startsWith(" | ")), marks, lines, areas };
};

const sorted = (things) => [...things].sort((one, other) => (one.what < other.what ? -1 : one.what > other.what ? 1 : one.at[0] - other.at[0] || one.at[1] - other.at[1]));

// The lines of each colour and width: how long they are together, their dashes, and how far they reach.
const measured = (lines) => {
  const found = new Map();
  for (const { colour, width, dashes, d } of lines) {
    const what = `${colour} ${width.toFixed(2)} ${dashes.length}`;
    const each = found.get(what) ?? { length: 0, left: Infinity, right: -Infinity, top: Infinity, bottom: -Infinity, dashes };
    let last = null;
    for (const [, letter, x, y] of d.matchAll(/([ML])?\s*(-?[\d.]+),(-?[\d.]+)/g)) {
      const point = [Number(x), Number(y)];
      if (letter !== "M" && last) {
        each.length += Math.hypot(point[0] - last[0], point[1] - last[1]);
        for (const [px, py] of [point, last]) {
          Object.assign(each, { left: Math.min(each.left, px), right: Math.max(each.right, px), top: Math.min(each.top, py), bottom: Math.max(each.bottom, py) });
        }
      }
      last = point;
    }
    found.set(what, each);
  }
  return found;
};

const sizeOf = (points) => {
  let twice = 0;
  for (let i = 0; i < points.length; i += 2) {
    const [x, y, nextX, nextY] = [points[i], points[i + 1], points[(i + 2) % points.length], points[(i + 3) % points.length]];
    twice += x * nextY - nextX * y;
  }
  return Math.abs(twice) / 2;
};
const sizes = (areas) => {
  const found = new Map();
  for (const { colour, points } of areas) found.set(colour, (found.get(colour) ?? 0) + sizeOf(points));
  return found;
};

// What differs between two pictures, as sentences.
const differences = (one, other) => {
  const found = [];
  for (const kind of ["words", "marks"]) {
    const [ones, others] = [sorted(one[kind]), sorted(other[kind])];
    if (ones.length !== others.length) found.push(`${ones.length} and ${others.length} ${kind}: ${JSON.stringify(ones.find(({ what }) => others.filter((its) => its.what === what).length !== ones.filter((its) => its.what === what).length) ?? others.at(-1))}`);
    else ones.forEach(({ what, at }, i) => {
      if (what !== others[i].what || at.some((figure, j) => Math.abs(figure - others[i].at[j]) > LITTLE)) found.push(`${kind}: ${what} at ${at}, and ${others[i].what} at ${others[i].at}`);
    });
  }
  const [lines, otherLines] = [measured(one.lines), measured(other.lines)];
  for (const what of new Set([...lines.keys(), ...otherLines.keys()])) {
    const [mine, theirs] = [lines.get(what), otherLines.get(what)];
    if (!mine || !theirs) found.push(`lines ${what} (colour, width, dashes) are in one alone`);
    else if (Math.abs(mine.length - theirs.length) > LITTLE + 0.003 * mine.length || ["left", "right", "top", "bottom"].some((side) => Math.abs(mine[side] - theirs[side]) > LITTLE) || mine.dashes.some((dash, i) => Math.abs(dash - theirs.dashes[i]) > LITTLE)) found.push(`lines ${what}: ${JSON.stringify(mine)} and ${JSON.stringify(theirs)}`);
  }
  const [areas, otherAreas] = [sizes(one.areas), sizes(other.areas)];
  for (const what of new Set([...areas.keys(), ...otherAreas.keys()])) {
    const [mine, theirs] = [areas.get(what) ?? 0, otherAreas.get(what) ?? 0];
    if (Math.abs(mine - theirs) > 2 + 0.005 * mine) found.push(`areas ${what}: ${mine} and ${theirs} square pixels`);
  }
  return found;
};

const main = async () => {
  const paged = moduleIn(build, MADE);
  if (!paged) return NOTHING_TO_COMPARE;
  if (!hasGnuplot()) {
    console.log("no gnuplot to hold the pictures against");
    return NOTHING_TO_COMPARE;
  }
  const natively = programAt(program, process.env.PATH);
  let pictures = 0;
  let differing = 0;
  for (const [number, words] of DRAWN.entries()) {
    const folder = `${MADE}/${number}`;
    natively([...words, folder]);
    const { files } = await paged([...words, folder], filesBelow(words[1]));
    const names = fs.readdirSync(folder).filter((name) => name.endsWith(".svg"));
    for (const name of names) {
      ++pictures;
      const place = path.join(folder, name);
      const drawn = files.get(place);
      const found = drawn ? differences(drawingOf(fs.readFileSync(place, "utf8")), drawingOf(Buffer.from(drawn).toString("utf8"))) : ["the page does not draw it"];
      differing += found.length > 0;
      for (const each of found.slice(0, 5)) console.log(`FAILED: ${words[0]} ${number}, ${name}: ${each}`);
    }
  }
  fs.rmSync(MADE, { recursive: true });
  if (pictures < 100) console.log(`FAILED: only ${pictures} pictures: this shows little`);
  console.log(`${pictures} pictures: ${differing === 0 ? "as gnuplot draws them" : differing + " differ"}`);
  return differing === 0 && pictures >= 100 ? 0 : 1;
};

main().then((status) => process.exit(status), (failure) => {
  console.error(failure);
  process.exit(1);
});
