// SPDX-License-Identifier: MIT
// compare.js PROGRAM BUILD: every book of the repository through the program and through the module of the page, command
// by command. Both streams, the status and every file written have to be the same bytes. Then a package made by either is
// verified by the other. Prints what differs; status 0 where nothing does, 77 where the page was not built.
"use strict";
const { spawnSync } = require("child_process");
const fs = require("fs");
const path = require("path");

const [program, build] = process.argv.slice(2);
const root = path.resolve(__dirname, "../..");
process.chdir(root);
const { runProgram } = require(path.join(root, "src/page/run.js"));
const { untarred } = require(path.join(root, "src/page/unpack.js"));

const DAY = ["--as-of", "2026-11-16"];
const NOTHING_TO_COMPARE = 77;
const MADE = fs.mkdtempSync("/tmp/page-compare-"); // where both write, each in a file system of its own
const FEW = 8;

const filesBelow = (folder, found = new Map()) => {
  for (const name of fs.readdirSync(folder).sort()) {
    const place = path.join(folder, name);
    if (fs.statSync(place).isDirectory()) filesBelow(place, found);
    else found.set(place, new Uint8Array(fs.readFileSync(place)));
  }
  return found;
};

const booksBelow = (folder) =>
  [...filesBelow(folder).keys()].filter((file) => path.basename(file) === "book.toml").map((file) => path.dirname(file));

// Without a PATH there is no gnuplot for the program either.
const natively = (words) => {
  const done = spawnSync(program, words, { env: { PATH: "", TZ: "UTC", LC_ALL: "C" }, maxBuffer: 1 << 28 });
  return { status: done.status, out: done.stdout.toString(), err: done.stderr.toString() };
};

const samplesOf = (csv) => csv.split("\n").slice(1, -1).map((line) => /^(?:"((?:[^"]|"")*)"|([^,]*))/.exec(line).slice(1).join("").replace(/""/g, '"'));

const commandsFor = (book) => {
  const csv = natively(["screen", book, "--format", "csv", ...DAY]).out;
  const commands = [["check", book], ["check", book, "--all"]];
  for (const format of ["table", "csv", "json", "sarif", "results"]) commands.push(["screen", book, "--format", format, ...DAY]);
  const samples = samplesOf(csv);
  const few = samples.filter((_, index) => index % Math.ceil(samples.length / FEW) === 0);
  for (const sample of few) commands.push(["explain", book, sample, ...DAY]);
  commands.push(["review", book, "--format", "json", ...DAY], ["review", book, "--format", "text", ...DAY], ["compare", book, "--guard", "1", ...DAY], ["risk", book, ...DAY]);
  return commands;
};

const commandsOfTheDemo = () => [
  ["custody", "docs/demo", "--batch", "TF46B", "--format", "html", ...DAY],
  ["custody", "docs/demo", "--batch", "TF46B", "--format", "csv", ...DAY],
  ["letter", "docs/demo", "--batch", "TF46B", "--out", MADE + "/letter.html", ...DAY],
  ["form", "docs/demo", "--batch", "TF46B", "--out", MADE + "/form.html", ...DAY],
  ["review", "docs/demo", "--out", MADE + "/review.html", ...DAY],
  ["screen", "docs/demo", "--out", MADE + "/verdicts.csv", ...DAY],
  ["evidence", "docs/demo", "--batch", "TF46B", "--out", MADE + "/bag", ...DAY],
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

// The package that the program made, in the page; the one of the page, by the program; and one that was altered.
const verifyEachOther = async (paged, differ) => {
  const bag = MADE + "/bag";
  const made = await paged(["evidence", "docs/demo", "--batch", "TF46B", "--out", bag, ...DAY], filesBelow("docs/demo"));
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
  process.setMaxListeners(0); // each instance listens for what nobody catches
  const packed = path.join(build, "packed.tar");
  if (!fs.existsSync(packed)) {
    console.log(`no ${packed}: the page was not built here`);
    return NOTHING_TO_COMPARE;
  }
  const files = untarred(new Uint8Array(fs.readFileSync(packed)));
  const engine = { factory: require(path.resolve(build, "driftwarden.js")), module: new WebAssembly.Module(files.get("driftwarden.wasm")) };
  files.delete("driftwarden.wasm");
  const carried = new Map([...files].map(([place, bytes]) => ["/" + place, bytes]));
  const paged = (words, laid) => runProgram(engine, words, [carried, laid], [MADE]);
  const tally = { runs: 0, differing: 0 };
  const differ = (words, text) => {
    ++tally.differing;
    console.log(`FAILED: ${words.join(" ")}: ${text}`);
  };
  const books = [...booksBelow("docs"), ...booksBelow("tests")];
  for (const book of books) {
    const laid = filesBelow(book);
    const commands = book === "docs/demo" ? [...commandsFor(book), ...commandsOfTheDemo()] : commandsFor(book);
    for (const words of commands) compare(words, natively(words), await paged(words, laid), tally, differ);
  }
  await verifyEachOther(paged, differ);
  fs.rmSync(MADE, { recursive: true });
  const isAll = books.length > 50 && tally.runs > 500;
  if (!isAll) console.log(`FAILED: only ${tally.runs} runs over ${books.length} books: this shows little`);
  console.log(`${tally.runs} runs over ${books.length} books: ${tally.differing === 0 ? "the same bytes" : tally.differing + " differences"}`);
  return tally.differing === 0 && isAll ? 0 : 1;
};

main().then((status) => process.exit(status), (failure) => {
  console.error(failure);
  process.exit(1);
});
