"use strict";
// SPDX-License-Identifier: MIT
// One run of the program: an instance of its own, so that none leaves anything to the next, and files of its own.

const TEXT = new TextDecoder();

// Lays files, a Map from path to bytes, into the file system of an instance. The bytes are shared, not copied.
const layFiles = (FS, files) => {
  for (const [path, bytes] of files) {
    const cut = path.lastIndexOf("/");
    const folder = cut < 0 ? "." : path.slice(0, cut);
    FS.mkdirTree(folder === "" ? "/" : folder);
    const node = FS.create(path, 0o666).node ?? FS.lookupPath(path).node;
    node.contents = bytes;
    node.usedBytes = bytes.length;
  }
};

// All files below a folder: path to bytes.
const filesBelow = (FS, folder, found = new Map()) => {
  if (!FS.analyzePath(folder).exists) return found;
  for (const name of FS.readdir(folder)) {
    if (name === "." || name === "..") continue;
    const path = folder + "/" + name;
    if (FS.isDir(FS.stat(path).mode)) filesBelow(FS, path, found);
    else found.set(path, FS.readFile(path));
  }
  return found;
};

// Streams 1 and 2 lead into files, byte by byte as the program writes them.
const leadStreams = (FS, paths) => {
  paths.forEach((path, index) => {
    FS.close(FS.getStream(index + 1));
    FS.open(path, "w", 0o666);
  });
};

// `engine`: {factory, module}. `files`: Maps of what lies there; paths without a slash in front are below /. `keep`:
// folders whose files are handed back. Returns {status, out, err, files}; throws where the instance itself fails, as it
// does without memory.
const runProgram = async (engine, words, files, keep = []) => {
  const instance = await engine.factory({
    instantiateWasm: (imports, done) => {
      WebAssembly.instantiate(engine.module, imports).then((made) => done(made, engine.module));
      return {};
    },
    quit: (status, end) => {
      throw end; // to callMain, which hands the status back
    },
  });
  const { FS } = instance;
  for (const folder of keep) FS.mkdirTree(folder);
  for (const each of files) layFiles(FS, each);
  leadStreams(FS, ["/tmp/.out", "/tmp/.err"]);
  const status = instance.callMain(words);
  const text = (path) => TEXT.decode(FS.readFile(path));
  const kept = new Map();
  for (const folder of keep) filesBelow(FS, folder, kept);
  return { status, out: text("/tmp/.out"), err: text("/tmp/.err"), files: kept };
};

if (typeof module !== "undefined") module.exports = { runProgram };
