"use strict";
// SPDX-License-Identifier: MIT
// The program and the book, apart from the page, which goes on answering. Each message is {id, what, …}; each gets one
// answer {id, answer} or {id, failure}, and on the way there {id, doing, done, of}.

let engine = null; // {factory, module}
let carried = []; // Maps of the files that every run finds: packs, themes, zones
let book = null; // {files: Map below /book, verdicts, asOf}

const encoded = (text) => new TextEncoder().encode(text);

// What a person chose: files with their paths, or one zip of them. The folder that holds book.toml, or the declaration of
// a package, is the book; what lies beside it is left out.
const chosenFiles = async (chosen, tell) => {
  let files = new Map();
  let done = 0;
  for (const { path, file } of chosen) {
    tell("reading", done++, chosen.length);
    files.set(path, new Uint8Array(await file.arrayBuffer()));
  }
  const [only] = files.keys();
  if (files.size === 1 && only.toLowerCase().endsWith(".zip")) files = await unzipped(files.get(only));
  const marks = [...files.keys()].filter((path) => /(^|\/)(book\.toml|bagit\.txt)$/.test(path));
  marks.sort((a, b) => a.split("/").length - b.split("/").length || a.endsWith("book.toml") - b.endsWith("book.toml"));
  if (marks.length === 0) throw new Error("there is no book.toml among these files, so they are no book; choose the folder that has it");
  const root = marks[0].slice(0, marks[0].lastIndexOf("/") + 1);
  const inside = new Map();
  for (const [path, bytes] of files) if (path.startsWith(root)) inside.set("/book/" + path.slice(root.length), bytes);
  return { files: inside, isPackage: marks[0].endsWith("bagit.txt"), root };
};

const run = (words, more = new Map(), keep = [], files = book.files) => {
  const dated = book.asOf !== "" && !["check", "decide", "receive", "verify"].includes(words[0]) ? ["--as-of", book.asOf] : [];
  return runProgram(engine, [...words, ...dated], [...carried, files, more], keep);
};

const saidBy = ({ status, out, err }) => ({ status, said: out + err });

// The verdicts of a book, null where it can't be judged, and what the program said.
const verdictsOf = async (files) => {
  const screen = await run(["screen", "/book", "--format", "csv", "--out", "/results/verdicts.csv"], new Map(), ["/results"], files);
  const csv = screen.files.get("/results/verdicts.csv");
  return { screen: saidBy(screen), verdicts: csv ? new Verdicts(csv) : null };
};

// Reads and judges what lies in `book`. All that is amiss with it is told on the way.
const judged = async (tell) => {
  tell("judging", 1, 2);
  const { screen, verdicts } = await verdictsOf(book.files);
  book.verdicts = verdicts;
  return {
    screen,
    totals: book.verdicts?.totals() ?? null,
  };
};

// Files of the book that a run has written: path in the book to bytes.
const changedFiles = (after) => {
  const changed = [];
  for (const [path, bytes] of after) {
    const before = book.files.get(path);
    const isSame = before === bytes || (before?.length === bytes.length && before.every((byte, at) => byte === bytes[at]));
    if (!isSame) changed.push([path, bytes]);
  }
  return changed;
};

const received = async (files) => {
  const more = new Map();
  for (const { path, file } of files) more.set("/received/" + path, new Uint8Array(await file.arrayBuffer()));
  return more;
};

const MOST_TRIED = 40; // samples of a trial that are shown
// What rows would come to in the book, which stays as it is: taken into a copy of it, and that judged. The samples that
// then stand otherwise than now, or anew, as the program's table shows them.
const tried = async (files) => {
  const rows = await received(files);
  const taken = await run(["receive", "/book", ...rows.keys(), "--by", "trial"], rows, ["/book"]);
  const copy = new Map([...book.files, ...changedFiles(taken.files)]);
  const { verdicts } = taken.status === 0 ? await verdictsOf(copy) : { verdicts: null };
  const samples = verdicts ? verdicts.othersThan(book.verdicts) : [];
  if (samples.length === 0) return { ...saidBy(taken), samples };
  const shown = samples.slice(0, MOST_TRIED).flatMap((sample) => ["--sample", sample]);
  const screen = await run(["screen", "/book", "--format", "table", ...shown], new Map(), [], copy);
  return { status: taken.status, said: taken.err + screen.out, samples };
};

const written = async (words, more, tell) => {
  tell("writing down", 1, 4);
  const done = await run(words, more, ["/book"]);
  const changed = done.status === 0 ? changedFiles(done.files) : [];
  for (const [path, bytes] of changed) book.files.set(path, bytes);
  const anew = changed.length > 0 ? await judged(tell) : null;
  return {
    ...saidBy(done),
    changed: changed.map(([path, bytes]) => ({ path: path.slice("/book/".length), bytes })),
    judged: anew,
  };
};

const doers = {
  start: async ({ packed }) => {
    const files = untarred(await inflated(Uint8Array.from(atob(packed), (letter) => letter.charCodeAt(0)), "gzip"));
    engine = { factory: driftwarden, module: await WebAssembly.compile(files.get("driftwarden.wasm")) };
    files.delete("driftwarden.wasm");
    carried = [new Map([...files].map(([path, bytes]) => ["/" + path, bytes]))];
    book = { files: new Map(), verdicts: null, asOf: "" };
    const version = await run(["--version"]);
    book = null;
    return { version: version.out.trim() };
  },
  open: async ({ files, asOf }, tell) => {
    book = { ...(await chosenFiles(files, tell)), asOf, verdicts: null };
    if (!book.isPackage) return judged(tell);
    tell("verifying", 1, 2);
    const verified = await run(["verify", "/book"]);
    return { verified: saidBy(verified) };
  },
  again: ({ asOf }, tell) => {
    book.asOf = asOf;
    return judged(tell);
  },
  // What there is of everything, and what is amiss, as the check tells it.
  check: async () => saidBy(await run(["check", "/book"])),
  page: ({ wanted }) => book.verdicts.page(wanted),
  explain: async ({ sample }) => saidBy(await run(["explain", "/book", sample])),
  // What a command writes: a page, a file, or a folder of pictures.
  make: async ({ words, name }, tell) => {
    tell("working", 1, 2);
    const done = await run([...words, "--out", "/results/" + name], new Map(), ["/results"]);
    const files = [...done.files].map(([path, bytes]) => ({ path: path.slice("/results/".length), bytes }));
    return { status: done.status, said: done.err, files };
  },
  decide: ({ words }, tell) => written(["decide", "/book", ...words], new Map(), tell),
  receive: async ({ files, by }, tell) => {
    const rows = await received(files);
    return written(["receive", "/book", ...rows.keys(), "--by", by], rows, tell);
  },
  trial: ({ files }) => tried(files),
};

onmessage = async ({ data }) => {
  const { id, what } = data;
  try {
    const answer = await doers[what](data, (doing, done, of) => postMessage({ id, doing, done, of }));
    postMessage({ id, answer });
  } catch (failure) {
    const isMemory = failure instanceof RangeError || /memory/i.test(String(failure?.message));
    postMessage({ id, failure: isMemory ? "there is not enough memory in this browser for this book; split it, or use the installed program" : String(failure?.message ?? failure) });
  }
};
