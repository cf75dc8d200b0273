// SPDX-License-Identifier: MIT
// compare.js PROGRAM BUILD [FOLDER]: every book of the repository, or of FOLDER, through the program and through the module
// of the page, command by command. Both streams, the status and every file written have to be the same bytes. Then a package
// made by either is verified by the other. Prints what differs; status 0 where nothing does, 77 where the page was not built.
"use strict";
const fs = require("fs");
const path = require("path");
const { NOTHING_TO_COMPARE, filesBelow, hasGnuplot, moduleIn, programAt, root } = require("./module.js");

const [program, build, folder] = process.argv.slice(2);
process.chdir(root);

const DAY = ["--as-of", "2026-11-16"];
const MADE = fs.mkdtempSync("/tmp/page-compare-"); // where both write, each in a file system of its own
const FEW = folder ? 2 : 8;

const booksBelow = (folder) =>
  [...filesBelow(folder).keys()].filter((file) => path.basename(file) === "book.toml").map((file) => path.dirname(file));

const natively = programAt(program);

const samplesOf = (csv) => csv.split("\n").slice(1, -1).map((line) => /^(?:"((?:[^"]|"")*)"|([^,]*))/.exec(line).slice(1).join("").replace(/""/g, '"'));

// The day that a random book is judged as of lies beside it.
const dayOf = (book) => (fs.existsSync(book + ".day") ? ["--as-of", fs.readFileSync(book + ".day", "utf8")] : DAY);

const commandsFor = (book) => {
  const day = dayOf(book);
  const csv = natively(["screen", book, "--format", "csv", ...day]).out;
  const commands = [["check", book], ["check", book, "--all"]];
  for (const format of ["table", "csv", "json", "sarif", "results"]) commands.push(["screen", book, "--format", format, ...day]);
  const samples = samplesOf(csv);
  const few = samples.filter((_, index) => index % Math.ceil(samples.length / FEW) === 0);
  for (const sample of few) commands.push(["explain", book, sample, ...day]);
  commands.push(["review", book, "--format", "json", ...day], ["review", book, "--format", "text", ...day], ["compare", book, "--guard", "1", ...day], ["risk", book, ...day]);
  return commands;
};

const commandsOfTheDemo = () => [
  ["custody", "docs/demo", "--batch", "TF46B", "--format", "html", ...DAY],
  ["custody", "docs/demo", "--batch", "TF46B", "--format", "csv", ...DAY],
  ["letter", "docs/demo", "--batch", "TF46B", "--out", MADE + "/letter.html", ...DAY],
  ["form", "docs/demo", "--batch", "TF46B", "--out", MADE + "/form.html", ...DAY],
  ["screen", "docs/demo", "--out", MADE + "/verdicts.csv", ...DAY],
  ["evidence", "docs/demo", "--batch", "TF46B", "--charts", "none", "--out", MADE + "/bag", ...DAY],
  ["lookback", "docs/demo", "ROT-2", "--format", "html", ...DAY],
  ["lookback", "docs/demo", "ROT-2", "--format", "json", ...DAY],
  ["kit", "docs/demo", ...DAY],
  ["actions", "docs/demo", ...DAY],
  ["ahead", "docs/demo", "--sampler", "respirable-parallel-impactor", "--minutes", "8 h", "--pump", "PUMP-09", ...DAY],
  ["decide", "docs/demo", "TF46B-1", "common-practice/drift", "uphold", "--by", "hygienist", "--reason", "As planned.", "--dry-run"],
  ["screen", "docs/demo", "--batch", "no such batch", ...DAY],
  ["explain", "docs/demo", "TF46B-11", ...DAY],
  ["rules", "list"],
  ["rules", "show", "common-practice/drift"],
  ["rules", "measures"],
  ["--help"],
];

// The time of now is another.
const withoutNow = (text) => text.replace(/T\d\d:\d\d:\d\d(?=[-+]\d\d:\d\d$)/gm, "T");

// The first lines in which two texts differ.
const firstDifference = (one, other) => {
  const [ones, others] = [one.split("\n"), other.split("\n")];
  const at = ones.findIndex((line, index) => line !== others[index]);
  const line = at < 0 ? ones.length : at;
  return `line ${line + 1}:\n  ${ones[line]?.slice(0, 300)}\n  ${others[line]?.slice(0, 300)}`;
};

const compare = (words, native, paged, tally, differ) => {
  ++tally.runs;
  if (native.status !== paged.status) differ(words, `status ${native.status} and ${paged.status}`);
  for (const what of ["out", "err"]) {
    const [one, other] = words[0] === "decide" ? [withoutNow(native[what]), withoutNow(paged[what])] : [native[what], paged[what]];
    if (one !== other) differ(words, `${what} differs, ${firstDifference(one, other)}`);
  }
  const out = words.indexOf("--out");
  if (out < 0) return;
  const written = [...paged.files].filter(([place]) => place.startsWith(words[out + 1]));
  const there = fs.statSync(words[out + 1]).isDirectory() ? [...filesBelow(words[out + 1]).keys()] : [words[out + 1]];
  if (written.length !== there.length) differ(words, `${there.length} and ${written.length} files`);
  for (const [place, bytes] of written) {
    const [one, other] = [fs.readFileSync(place, "utf8"), Buffer.from(bytes).toString("utf8")];
    if (one !== other) differ(words, `${place} differs, ${firstDifference(one, other)}`);
  }
};

// The review with its charts, which gnuplot draws for the program: all but what is within them is the same bytes, and they
// say the same words. (Where they stand, and what else is drawn, is compared in pictures.js.)
const compareReview = async (paged, differ) => {
  const words = ["review", "docs/demo", "--out", MADE + "/review.html", ...DAY];
  const made = (await paged(words, filesBelow("docs/demo"))).files.get(MADE + "/review.html");
  const ours = Buffer.from(made ?? "").toString("utf8");
  const drawings = (html) => html.match(/<svg.*?<\/svg>/gs) ?? [];
  if (drawings(ours).length < 10) differ(words, `the page draws ${drawings(ours).length} charts`);
  if (!hasGnuplot()) return console.log("no gnuplot: the charts of the review were compared with none");
  programAt(program, process.env.PATH)(words);
  const theirs = fs.readFileSync(MADE + "/review.html", "utf8");
  const [one, other] = [theirs, ours].map((html) => html.replace(/<svg.*?<\/svg>/gs, "<svg></svg>"));
  if (one !== other) differ(words, firstDifference(one, other));
  const said = (html) => drawings(html).map((svg) => (svg.match(/(?<=<text[^>]*>)[^<]+/g) ?? []).sort().join("\n")).join("\n\n");
  if (said(theirs) !== said(ours)) differ(words, `words in the charts, ${firstDifference(said(theirs), said(ours))}`);
  return undefined;
};

// The package that the program made, in the page; the one of the page, by the program; and one that was altered.
const verifyEachOther = async (paged, differ) => {
  const bag = MADE + "/bag";
  const made = await paged(["evidence", "docs/demo", "--batch", "TF46B", "--charts", "none", "--out", bag, ...DAY], filesBelow("docs/demo"));
  const ours = filesBelow(bag);
  const verified = await paged(["verify", bag], ours);
  if (verified.status !== 0) differ(["verify"], `the program's package does not hold in the page:\n${verified.out}${verified.err}`);
  fs.rmSync(bag, { recursive: true });
  for (const [place, bytes] of made.files) {
    fs.mkdirSync(path.dirname(place), { recursive: true });
    fs.writeFileSync(place, bytes);
  }
  const native = natively(["verify", bag]);
  if (native.status !== 0) differ(["verify"], `the page's package does not hold for the program:\n${native.out}${native.err}`);
  const [first] = [...ours.keys()].filter((place) => place.endsWith("samples/2026-W46.csv"));
  ours.set(first, Buffer.concat([ours.get(first), Buffer.from(" ")]));
  const altered = await paged(["verify", bag], ours);
  if (altered.status !== 1 || !altered.out.includes("1 file was changed")) differ(["verify"], `an altered package holds in the page:\n${altered.out}`);
};

const main = async () => {
  const paged = moduleIn(build, MADE);
  if (!paged) return NOTHING_TO_COMPARE;
  const tally = { runs: 0, differing: 0 };
  const differ = (words, text) => {
    ++tally.differing;
    console.log(`FAILED: ${words.join(" ")}: ${text}`);
  };
  const books = folder ? booksBelow(folder) : [...booksBelow("docs"), ...booksBelow("tests")];
  for (const book of books) {
    const laid = filesBelow(book);
    const commands = book === "docs/demo" ? [...commandsFor(book), ...commandsOfTheDemo()] : commandsFor(book);
    for (const words of commands) compare(words, natively(words), await paged(words, laid), tally, differ);
  }
  if (!folder) {
    await compareReview(paged, differ);
    await verifyEachOther(paged, differ);
  }
  fs.rmSync(MADE, { recursive: true });
  const isAll = folder ? tally.runs >= 10 * books.length && books.length > 0 : books.length > 50 && tally.runs > 500;
  if (!isAll) console.log(`FAILED: only ${tally.runs} runs over ${books.length} books: this shows little`);
  console.log(`${tally.runs} runs over ${books.length} books: ${tally.differing === 0 ? "the same bytes" : tally.differing + " differences"}`);
  return tally.differing === 0 && isAll ? 0 : 1;
};

main().then((status) => process.exit(status), (failure) => {
  console.error(failure);
  process.exit(1);
});
