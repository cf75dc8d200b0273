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
    else found.set(path, bytesOf(FS.lookupPath(path).node));
  }
  return found;
};

// The bytes of a file; those that were laid there, if nothing has changed them.
const bytesOf = ({ contents, usedBytes }) => {
  if (!contents) return new Uint8Array();
  if (contents instanceof Uint8Array && contents.length === usedBytes) return contents;
  return new Uint8Array(contents.buffer, contents.byteOffset, contents.length).slice(0, usedBytes); // it may be of signed bytes
};

// A file that outgrows its room gets twice that. By an eighth more each time, as emscripten has it, a large one would leave
// eight times its size behind, to be cleared away when the browser comes to it.
const LEAST_ROOM = 4096;
const growFile = (node, needed) => {
  if (node.contents && node.contents.length >= needed) return;
  const old = node.contents;
  node.contents = new Uint8Array(Math.max(needed, 2 * (old?.length ?? 0), LEAST_ROOM));
  if (old) node.contents.set(old.subarray(0, node.usedBytes));
};

// Streams 1 and 2 lead into files, byte by byte as the program writes them.
const leadStreams = (FS, paths) => {
  paths.forEach((path, index) => {
    FS.close(FS.getStream(index + 1));
    FS.open(path, "w", 0o666);
  });
};

// The memory of an instance, all noughts. One that ran before had the same: a browser gives back what is not used any more
// only when it comes to it, and a large book's is some hundred megabytes.
const PAGES_AT_FIRST = 512; // of 64 KiB, as the module is linked
const MOST_PAGES = 65536;
const cleanMemory = (engine) => {
  if (engine.memory) new Uint8Array(engine.memory.buffer).fill(0);
  else engine.memory = new WebAssembly.Memory({ initial: PAGES_AT_FIRST, maximum: MOST_PAGES });
  return engine.memory;
};

// One run after the other.
const runProgram = (engine, ...run) => {
  const end = (engine.last ?? Promise.resolve()).then(() => runAlone(engine, ...run));
  engine.last = end.catch(() => {}); // whoever asked for it is told
  return end;
};

// `engine`: {factory, module}. `files`: Maps of what lies there; paths without a slash in front are below /. `keep`:
// folders whose files are handed back. Returns {status, out, err, files}; throws where the instance itself fails, as it
// does without memory.
const runAlone = async (engine, words, files, keep = []) => {
  const instance = await engine.factory({
    wasmMemory: cleanMemory(engine),
    instantiateWasm: (imports, done) => {
      WebAssembly.instantiate(engine.module, imports).then((made) => done(made, engine.module));
      return {};
    },
    quit: (status, end) => {
      throw end; // to callMain, which hands the status back
    },
  });
  const { FS } = instance;
  FS.filesystems.MEMFS.expandFileStorage = growFile;
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
