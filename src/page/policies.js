// SPDX-License-Identifier: MIT
// policies.js BUILD BOOK: what the pages that the module makes allow themselves, by their own policies: prints the digests of
// their styles and of their scripts as JSON, {"style": […], "script": […]}. The page that shows them has to allow as much.
"use strict";
const fs = require("fs");
const path = require("path");
const { runProgram } = require("./run.js");
const { untarred } = require("./unpack.js");

const [build, folder] = process.argv.slice(2);
const BATCH = ["--batch", "TF46B"];
const SHOWN = [["review"], ["custody", ...BATCH], ["letter", ...BATCH], ["form", ...BATCH], ["lookback", "ROT-2"]]; // of docs/demo

const below = (place, name, found) => {
  for (const each of fs.readdirSync(place, { withFileTypes: true })) {
    if (each.isDirectory()) below(path.join(place, each.name), `${name}/${each.name}`, found);
    else found.set(`${name}/${each.name}`, new Uint8Array(fs.readFileSync(path.join(place, each.name))));
  }
  return found;
};

const main = async () => {
  const files = untarred(new Uint8Array(fs.readFileSync(path.join(build, "packed.tar"))));
  const engine = { factory: require(path.resolve(build, "driftwarden.js")), module: new WebAssembly.Module(files.get("driftwarden.wasm")) };
  files.delete("driftwarden.wasm");
  const carried = new Map([...files].map(([place, bytes]) => ["/" + place, bytes]));
  const book = below(folder, "/book", new Map());
  const allowed = { style: new Set(), script: new Set() };
  for (const [command, ...words] of SHOWN) {
    const { files: made, err } = await runProgram(engine, [command, "/book", ...words, "--as-of", "2026-11-16", "--out", "/made/page.html"], [carried, book], ["/made"]);
    if (!made.has("/made/page.html")) throw new Error(`${command} made no page: ${err}`);
    const html = Buffer.from(made.get("/made/page.html")).toString("utf8");
    for (const what of ["style", "script"]) {
      const digest = new RegExp(`${what}-src &#39;(sha256-[^&]*)&#39;`).exec(html);
      if (digest) allowed[what].add(digest[1]);
    }
  }
  console.log(JSON.stringify({ style: [...allowed.style], script: [...allowed.script] }));
};

main().catch((failure) => {
  console.error(failure);
  process.exit(1);
});
