// SPDX-License-Identifier: MIT
// The module of the page in Node, and the program beside it: each is given the same words and the same files.
"use strict";
const { spawnSync } = require("child_process");
const fs = require("fs");
const path = require("path");

const root = path.resolve(__dirname, "../..");
const { runProgram } = require(path.join(root, "src/page/run.js"));
const { untarred } = require(path.join(root, "src/page/unpack.js"));

const NOTHING_TO_COMPARE = 77;

// All files below a folder: path to bytes.
const filesBelow = (folder, found = new Map()) => {
  for (const name of fs.readdirSync(folder).sort()) {
    const place = path.join(folder, name);
    if (fs.statSync(place).isDirectory()) filesBelow(place, found);
    else found.set(place, new Uint8Array(fs.readFileSync(place)));
  }
  return found;
};

// Runs of the module that was built there: paged(words, files) gives {status, out, err, files}, of those that it wrote
// below `made`. Null, and said so, where none was built.
const moduleIn = (build, made) => {
  process.setMaxListeners(0); // each instance listens for what nobody catches
  const packed = path.join(build, "packed.tar");
  if (!fs.existsSync(packed)) {
    console.log(`no ${packed}: the page was not built here`);
    return null;
  }
  const files = untarred(new Uint8Array(fs.readFileSync(packed)));
  const engine = { factory: require(path.resolve(build, "driftwarden.js")), module: new WebAssembly.Module(files.get("driftwarden.wasm")) };
  files.delete("driftwarden.wasm");
  const carried = new Map([...files].map(([place, bytes]) => ["/" + place, bytes]));
  return (words, laid) => runProgram(engine, words, [carried, laid], [made]);
};

// Runs of the program: natively(words) gives {status, out, err}. Without a PATH there is no gnuplot for it.
const programAt = (program, searched = "") => (words) => {
  const done = spawnSync(program, words, { env: { PATH: searched, TZ: "UTC", LC_ALL: "C" }, maxBuffer: 1 << 28 });
  return { status: done.status, out: done.stdout.toString(), err: done.stderr.toString() };
};

const hasGnuplot = () => spawnSync("gnuplot", ["--version"]).status === 0;

module.exports = { NOTHING_TO_COMPARE, filesBelow, hasGnuplot, moduleIn, programAt, root };
