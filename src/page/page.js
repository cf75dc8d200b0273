"use strict";
// SPDX-License-Identifier: MIT
// What a person sees of the program: it asks the worker, and shows what comes back as text, never as markup.
(() => {
  const byId = (id) => document.getElementById(id);
  const ROWS = 50;
  const BATCHES = 200;

  const make = (tag, properties = {}, ...children) => {
    const element = Object.assign(document.createElement(tag), properties);
    element.append(...children);
    return element;
  };

  // The worker, and what it was asked.
  const code = byId("worker").textContent;
  const worker = new Worker(URL.createObjectURL(new Blob([code], { type: "text/javascript" })));
  const waiting = new Map();
  let asked = 0;
  const ask = (what, more = {}) =>
    new Promise((answer, fail) => {
      waiting.set(++asked, { answer, fail });
      worker.postMessage({ id: asked, what, ...more });
    });
  worker.onmessage = ({ data }) => {
    if (data.doing) return tellProgress(data);
    const { answer, fail } = waiting.get(data.id);
    waiting.delete(data.id);
    if (waiting.size === 0) byId("progress").hidden = true;
    if (data.failure !== undefined) fail(new Error(data.failure));
    else answer(data.answer);
  };
  worker.onerror = (event) => tell("this browser does not run the program: " + event.message, true);

  const tell = (text, isAmiss = false) => {
    byId("state").textContent = text;
    byId("state").classList.toggle("amiss", isAmiss);
  };
  const DOING = { reading: "Reading the files", judging: "Reading the book and judging", verifying: "Verifying the package", working: "Working", "writing down": "Writing down" };
  const tellProgress = ({ doing, done, of }) => {
    const bar = byId("progress");
    bar.hidden = false;
    bar.max = of;
    bar.value = done;
    tell(DOING[doing] + "…");
  };
  // Does a piece of work, and tells where it can't be done.
  const trying = (work) => async (event) => {
    event?.preventDefault?.();
    try {
      await work(event);
    } catch (failure) {
      byId("progress").hidden = true;
      tell(failure.message, true);
    }
  };

  // Choosing.
  let folderToSaveInto = null;
  const open = async (files, handle = null) => {
    if (files.length === 0) return;
    folderToSaveInto = handle;
    for (const id of ["check", "verified", "verdicts", "pages", "records"]) byId(id).hidden = true;
    byId("made").replaceChildren();
    byId("written").replaceChildren();
    const begin = performance.now();
    const judged = await ask("open", { files, asOf: byId("as-of").value });
    show(judged, begin);
  };
  const listed = (list) => [...list].map((file) => ({ path: file.webkitRelativePath || file.name, file }));
  byId("folder").addEventListener("change", trying((event) => open(listed(event.target.files))));
  byId("files").addEventListener("change", trying((event) => open(listed(event.target.files))));
  byId("again").addEventListener("click", trying(async () => {
    const begin = performance.now();
    show(await ask("again", { asOf: byId("as-of").value }), begin);
  }));

  // All files of an entry that was dropped.
  const filesOfEntry = async (entry, found) => {
    if (entry.isFile) {
      const file = await new Promise((take, fail) => entry.file(take, fail));
      found.push({ path: entry.fullPath.slice(1), file });
      return;
    }
    const reader = entry.createReader();
    for (;;) {
      const some = await new Promise((take, fail) => reader.readEntries(take, fail));
      if (some.length === 0) return;
      for (const each of some) await filesOfEntry(each, found);
    }
  };
  const drop = byId("drop");
  for (const name of ["dragenter", "dragover"]) {
    drop.addEventListener(name, (event) => {
      event.preventDefault();
      drop.classList.add("over");
    });
  }
  drop.addEventListener("dragleave", () => drop.classList.remove("over"));
  drop.addEventListener("drop", trying(async (event) => {
    drop.classList.remove("over");
    const entries = [...event.dataTransfer.items].map((item) => item.webkitGetAsEntry()).filter((entry) => entry !== null);
    const found = [];
    for (const entry of entries) await filesOfEntry(entry, found);
    await open(found);
  }));
  // A folder that may be written to, where the browser has such and the person says so.
  const filesOfHandle = async (folder, path, found) => {
    for await (const [name, handle] of folder.entries()) {
      if (handle.kind === "file") found.push({ path: path + name, file: await handle.getFile() });
      else await filesOfHandle(handle, path + name + "/", found);
    }
  };
  byId("to-save-box").hidden = typeof window.showDirectoryPicker !== "function";
  byId("to-save").addEventListener("click", trying(async () => {
    const handle = await window.showDirectoryPicker({ mode: "readwrite" });
    const found = [];
    await filesOfHandle(handle, "", found);
    await open(found, handle);
  }));

  // Verdicts.
  const verdictWord = (verdict) => make("span", { className: "verdict " + verdict }, verdict);
  const VERDICTS = ["void", "undecided", "qualified", "valid"];
  const cell = (label, content, tag = "td") => {
    const element = make(tag, {}, content);
    element.dataset.label = label;
    return element;
  };
  const bookText = (text) => make("bdi", {}, text);
  const table = (caption, heads, rows) =>
    make("table", {}, make("caption", {}, caption), make("thead", {}, make("tr", {}, ...heads.map((head) => make("th", { scope: "col" }, head)))), ...rows);

  const showCounts = (totals) =>
    byId("counts").replaceChildren(...VERDICTS.map((verdict) => make("div", {}, make("dt", {}, verdictWord(verdict)), make("dd", {}, String(totals.all[verdict])))));

  const showBatches = ({ batches }) => {
    const rows = batches.slice(0, BATCHES).map((batch) => {
      const button = make("button", { type: "button", className: "open" }, bookText(batch.batch || "(none)"));
      button.addEventListener("click", trying(async () => {
        byId("batch").value = "=" + batch.batch;
        await showRows(0);
        byId("samples").scrollIntoView({ block: "nearest" });
      }));
      return make("tr", {}, cell("", button, "th"), ...VERDICTS.map((verdict) => cell(verdict, String(batch[verdict]))));
    });
    const more = batches.length > BATCHES ? [make("p", { className: "note" }, `and ${batches.length - BATCHES} more, in the list of batches below`)] : [];
    byId("batches").replaceChildren(table("Batches and their verdicts", ["batch", ...VERDICTS], [make("tbody", {}, ...rows)]), ...more);
    byId("batch").replaceChildren(make("option", { value: "" }, "all"), ...batches.map((batch) => make("option", { value: "=" + batch.batch }, batch.batch || "(none)")));
    byId("names").replaceChildren(...batches.map((batch) => make("option", { value: batch.batch })));
  };

  // Comes after the verdicts: it reads the book once more.
  const showCheck = async () => {
    const { status, said } = await ask("check");
    byId("check-said").textContent = said;
    byId("check-lead").textContent = status === 0 ? "The book can be read." : "Something in the book can't be used; what touches it is undecided.";
  };

  const show = (judged, begin) => {
    if (judged.verified) {
      byId("verified").hidden = false;
      byId("verified-said").textContent = judged.verified.said;
      return tell(judged.verified.status === 0 ? "The package holds." : "The package does not hold, or not in all.", judged.verified.status !== 0);
    }
    byId("again").disabled = false;
    byId("check").hidden = false;
    byId("check-said").textContent = judged.screen.said;
    byId("check-lead").textContent = "Counting what there is…";
    if (judged.totals === null) {
      tell("The book could not be judged: see what the check says.", true);
      return showCheck();
    }
    showCounts(judged.totals);
    showBatches(judged.totals);
    for (const id of ["verdicts", "pages", "records"]) byId(id).hidden = false;
    const seconds = ((performance.now() - begin) / 1000).toFixed(1);
    tell(`${judged.totals.samples} samples and blanks judged in ${seconds} s.`);
    return showRows(0).then(showCheck);
  };

  let from = 0;
  let newest = 0;
  const showRows = async (first) => {
    from = first;
    const mine = ++newest;
    const batch = byId("batch").value;
    const wanted = { verdict: byId("verdict").value, batch: batch === "" ? null : batch.slice(1), text: byId("text").value, from, most: ROWS };
    const page = await ask("page", { wanted });
    if (mine !== newest) return; // asked for otherwise meanwhile
    byId("samples").replaceChildren(table("Samples and their verdicts", ["sample", "verdict", "batch", "pump", "rules not met"], page.rows.map(sampleRow)));
    byId("count").textContent = page.count === 0 ? "No sample is like that." : `Rows ${from + 1} to ${from + page.rows.length} of ${page.count}`;
    byId("before").disabled = from === 0;
    byId("after").disabled = from + ROWS >= page.count;
  };
  byId("before").addEventListener("click", trying(() => showRows(Math.max(0, from - ROWS))));
  byId("after").addEventListener("click", trying(() => showRows(from + ROWS)));
  for (const id of ["verdict", "batch"]) byId(id).addEventListener("change", trying(() => showRows(0)));
  byId("text").addEventListener("input", trying(() => showRows(0)));

  // A row, and below it, once it is asked for, the whole working.
  const sampleRow = ({ sample, verdict, batch, pump, findings }) => {
    const button = make("button", { type: "button", className: "open" }, bookText(sample));
    button.setAttribute("aria-expanded", "false");
    const row = make("tr", {}, cell("", button, "th"), cell("", verdictWord(verdict)), cell("batch", bookText(batch)), cell("pump", bookText(pump)), cell("", make("span", { className: "rule" }, findings.replaceAll(";", "; "))));
    const body = make("tbody", { className: "record" }, row);
    button.addEventListener("click", trying(async () => {
      const shown = body.querySelector(".working");
      if (shown) {
        shown.remove();
        button.setAttribute("aria-expanded", "false");
        return;
      }
      tell("Working it out…");
      const { said } = await ask("explain", { sample });
      const text = make("pre", { tabIndex: 0 }, said);
      text.setAttribute("aria-label", "Working of " + sample);
      const use = make("button", { type: "button" }, "Decide about it");
      use.addEventListener("click", () => {
        byId("decide-samples").value = sample;
        byId("decide-rule").value = findings.split(";")[0];
        byId("decide-by").focus();
      });
      body.append(make("tr", { className: "working" }, make("td", { colSpan: 5 }, text, ...(findings === "" ? [] : [use]))));
      button.setAttribute("aria-expanded", "true");
      tell("The working of " + sample + " is below its row.");
    }));
    return body;
  };

  // Files to save.
  const TYPES = { html: "text/html", csv: "text/csv", json: "application/json", svg: "image/svg+xml" };
  const link = (name, bytes) => {
    const type = TYPES[name.split(".").pop()] ?? "application/octet-stream";
    return make("a", { href: URL.createObjectURL(new Blob([bytes], { type })), download: name.split("/").pop() }, "Save " + name);
  };
  const frame = (title, bytes, may = "allow-scripts") => {
    const element = make("iframe", { title });
    element.setAttribute("sandbox", may);
    element.srcdoc = new TextDecoder().decode(bytes);
    return element;
  };
  const picture = (title, bytes) => {
    const letters = bytes.reduce((text, byte) => text + String.fromCharCode(byte), "");
    return make("img", { alt: "Chart " + title, src: "data:image/svg+xml;base64," + btoa(letters) });
  };
  const safeName = (text) => text.replace(/[^A-Za-z0-9._-]+/g, "-").slice(0, 60);

  // Rows that are not in the book yet: what they would come to there.
  let trials = 0;
  const tryRows = async (files, place) => {
    const mine = ++trials;
    const { status, said, samples } = await ask("trial", { files });
    if (mine !== trials) return;
    const lead = status !== 0 ? "The book can't take these rows as they are:" : samples.length === 0 ? "No sample would stand otherwise:" : `With these rows, which are not in the book yet (${samples.length === 1 ? "one sample" : samples.length + " samples"}):`;
    const text = make("pre", { tabIndex: 0 }, said);
    text.setAttribute("aria-label", "What the rows would come to");
    place.replaceChildren(make("p", { className: "note" }, lead), text);
  };

  // A form within the page tells its rows at every stroke; they are judged once nobody has typed for a moment.
  const MOMENT = 400; // ms
  const formParts = (name, bytes) => {
    const form = frame(name, bytes, "allow-scripts allow-downloads");
    const place = make("div", { id: "judged-form" });
    const notYet = make("p", { className: "note" }, "As soon as a sample is finished, its figures and verdict stand here. Nothing that is typed here is kept: save the rows, or take them into the book.");
    place.setAttribute("aria-live", "polite");
    place.append(notYet);
    const by = make("input", { id: "form-by", required: true });
    const take = make("form", { className: "controls", id: "take" }, make("div", {}, make("label", { htmlFor: "form-by" }, "Who takes them in"), by), make("div", {}, make("button", {}, "Take these rows into the book")));
    take.hidden = true;
    let rows = null;
    let pause = 0;
    const listen = ({ source, data }) => {
      if (!form.isConnected) return removeEventListener("message", listen);
      if (source !== form.contentWindow || ![data.form, data.samples, data.readings].every((text) => typeof text === "string")) return undefined;
      const file = (what) => ({ path: safeName(data.form) + "-" + what + ".csv", file: new Blob([data[what]]) });
      rows = ["samples", "readings"].filter((what) => data[what].split("\n").length > 2).map(file);
      take.hidden = !(data.finished > 0);
      clearTimeout(pause);
      if (take.hidden) place.replaceChildren(notYet);
      else pause = setTimeout(trying(() => tryRows(rows, place)), MOMENT);
      return undefined;
    };
    addEventListener("message", listen);
    take.addEventListener("submit", trying(async () => {
      const begin = performance.now();
      showWritten(await ask("receive", { files: rows, by: by.value }), begin);
    }));
    return [form, place, take];
  };

  // Beside the link that saves a file, the file itself.
  const shown = (path, bytes) => {
    if (path.startsWith("form-")) return formParts(path, bytes);
    if (path.endsWith(".svg")) return [picture(path, bytes)];
    return path.endsWith(".html") ? [frame(path, bytes)] : [];
  };

  const CHARTS = "charts";
  const MADE = {
    charts: (name) => [CHARTS, ["history", "/book", ...(name.trim() === "" ? [] : [name])]],
    review: () => ["review.html", ["review", "/book"]],
    custody: (name) => [`custody-${safeName(name)}.html`, ["custody", "/book", "--batch", name]],
    letter: (name) => [`letter-${safeName(name)}.html`, ["letter", "/book", "--batch", name]],
    lookback: (name) => [`lookback-${safeName(name)}.html`, ["lookback", "/book", name]],
    form: (name) => [`form-${safeName(name)}.html`, ["form", "/book", "--batch", name]],
    verdicts: () => ["verdicts.csv", ["screen", "/book"]],
    json: () => ["verdicts.json", ["screen", "/book"]],
  };
  byId("make").addEventListener("submit", trying(async () => {
    const [name, words] = MADE[byId("what").value](byId("about").value);
    const { said, files } = await ask("make", { words, name });
    const parts = said === "" ? [] : [make("pre", { tabIndex: 0 }, said)];
    for (const { path, bytes } of files) parts.push(make("p", { className: "files" }, link(path, bytes)), ...shown(path, bytes));
    byId("made").replaceChildren(...parts);
    tell(files.length > 0 ? name + (name === CHARTS ? " are made." : " is made.") : "It could not be made: see what is said there.", files.length === 0);
  }));

  // Rows written into the book.
  const saveIntoFolder = async (changed) => {
    for (const { path, bytes } of changed) {
      const parts = path.split("/");
      let folder = folderToSaveInto;
      for (const part of parts.slice(0, -1)) folder = await folder.getDirectoryHandle(part, { create: true });
      const file = await (await folder.getFileHandle(parts.at(-1), { create: true })).createWritable();
      await file.write(bytes);
      await file.close();
    }
    tell(`Saved into the folder: ${changed.map(({ path }) => path).join(", ")}.`);
  };
  const showWritten = (done, begin) => {
    const parts = [make("pre", { tabIndex: 0 }, done.said)];
    if (done.changed.length > 0) {
      parts.push(make("p", { className: "files" }, ...done.changed.flatMap(({ path, bytes }) => [link(path, bytes), " "])));
      if (folderToSaveInto) {
        const button = make("button", { type: "button" }, "Save into the book's folder");
        button.addEventListener("click", trying(() => saveIntoFolder(done.changed)));
        parts.push(button);
      }
    }
    byId("written").replaceChildren(...parts);
    if (done.judged) show(done.judged, begin);
    else tell(done.status === 0 ? "Nothing was changed." : "Nothing was written: see what is said there.", done.status !== 0);
  };
  byId("decide").addEventListener("submit", trying(async () => {
    const samples = byId("decide-samples").value.split("\n").filter((line) => line.trim() !== "");
    const words = [...samples, byId("decide-rule").value.trim(), byId("decide-ruling").value, "--by", byId("decide-by").value, "--reason", byId("decide-reason").value];
    const begin = performance.now();
    showWritten(await ask("decide", { words }), begin);
  }));
  byId("receive-files").addEventListener("change", trying((event) => tryRows(listed(event.target.files), byId("tried"))));
  byId("receive").addEventListener("submit", trying(async () => {
    const begin = performance.now();
    showWritten(await ask("receive", { files: listed(byId("receive-files").files), by: byId("receive-by").value }), begin);
  }));

  trying(async () => {
    const { version } = await ask("start", { packed: byId("packed").textContent });
    byId("version").textContent = version + ".";
    tell("Ready.");
  })();
})();
