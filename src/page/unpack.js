"use strict";
// SPDX-License-Identifier: MIT
// What the page carries and what people drop on it: tar (POSIX.1-1988, ustar) and zip (APPNOTE 6.3, stored or deflated).

const inflated = async (bytes, form) => {
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream(form));
  return new Uint8Array(await new Response(stream).arrayBuffer());
};

// The files of a tar archive, a Map from path to bytes. Links of either kind are the file that they lead to.
const untarred = (bytes) => {
  const files = new Map();
  const links = [];
  const text = (from, length) => {
    const end = bytes.indexOf(0, from);
    return new TextDecoder().decode(bytes.subarray(from, Math.min(end < 0 ? from + length : end, from + length)));
  };
  for (let at = 0; at + 512 <= bytes.length && bytes[at] !== 0;) {
    const folder = text(at + 345, 155);
    const path = ((folder === "" ? "" : folder + "/") + text(at, 100)).replace(/^\.\//, "");
    const size = parseInt(text(at + 124, 12), 8) || 0;
    const kind = String.fromCharCode(bytes[at + 156]);
    if (kind === "0") files.set(path, bytes.subarray(at + 512, at + 512 + size));
    if (kind === "1") links.push([path, text(at + 157, 100).replace(/^\.\//, "")]);
    if (kind === "2") links.push([path, resolved(path, text(at + 157, 100))]);
    at += 512 + Math.ceil(size / 512) * 512;
  }
  for (let round = 0; round < 4; ++round) {
    for (const [path, target] of links) if (files.has(target)) files.set(path, files.get(target));
  }
  return files;
};

// Where a link at `path` leads, as a path from the same begin.
const resolved = (path, target) => {
  if (target.startsWith("/")) return target.slice(1);
  const parts = path.split("/").slice(0, -1);
  for (const part of target.split("/")) {
    if (part === "..") parts.pop();
    else if (part !== ".") parts.push(part);
  }
  return parts.join("/");
};

// The files of a zip archive. Throws what is amiss with it, to be told.
const unzipped = async (bytes) => {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - 22;
  while (end >= 0 && view.getUint32(end, true) !== 0x06054b50) --end;
  if (end < 0) throw new Error("this is no zip file, or not all of one");
  const files = new Map();
  let at = view.getUint32(end + 16, true);
  for (let left = view.getUint16(end + 10, true); left > 0; --left) {
    if (view.getUint32(at, true) !== 0x02014b50) throw new Error("the list of files in the zip file is damaged");
    const [method, packed, size] = [view.getUint16(at + 10, true), view.getUint32(at + 20, true), view.getUint32(at + 24, true)];
    const [name, extra, note] = [28, 30, 32].map((offset) => view.getUint16(at + offset, true));
    const local = view.getUint32(at + 42, true);
    const path = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + name));
    if ((view.getUint16(at + 8, true) & 1) !== 0) throw new Error("the zip file is locked with a password");
    if (method !== 0 && method !== 8) throw new Error("the zip file is packed in a way that is not known here");
    if (!path.endsWith("/")) {
      const from = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
      const raw = bytes.subarray(from, from + packed);
      const whole = method === 0 ? raw : await inflated(raw, "deflate-raw");
      if (whole.length !== size) throw new Error("a file in the zip file is damaged");
      files.set(path, whole);
    }
    at += 46 + name + extra + note;
  }
  return files;
};

if (typeof module !== "undefined") module.exports = { inflated, untarred, unzipped };
