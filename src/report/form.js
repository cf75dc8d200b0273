// SPDX-License-Identifier: MIT
// The records of a batch, typed in and given as rows. Nothing is worked out here: what a display should show is looked
// up in tables that the program made, and what a figure would do is told in its words.
"use strict";
(() => {
  const data = JSON.parse(document.getElementById("data").textContent);
  const formName = document.getElementById("form-name").textContent;
  const place = "form " + formName;
  const kept = document.getElementById("kept");
  let state = {};
  let saved = {};

  // Whatever a book holds is text and never markup.
  const make = (tag, attributes = {}, ...children) => {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) {
      if (value !== undefined && value !== false) element.setAttribute(name, value === true ? "" : value);
    }
    element.append(...children.filter((child) => child !== null && child !== undefined));
    return element;
  };

  const button = (words, act) => {
    const made = make("button", { type: "button" }, words);
    made.addEventListener("click", act);
    return made;
  };

  // --- What is kept on this device -----------------------------------------------------------------------------------
  const storage = (() => {
    try {
      window.localStorage.setItem(place + " try", "1");
      window.localStorage.removeItem(place + " try");
      return window.localStorage;
    } catch (fault) {
      return null;
    }
  })();
  const tellKept = (words) => { kept.textContent = words; };
  const keep = () => {
    saved = {};
    forgetting.hidden = true;
    if (storage === null) return tellKept("Not kept: this browser stores nothing for this page. Save the rows before you close it.");
    try {
      storage.setItem(place, JSON.stringify(state));
      tellKept("Kept in this browser until you say that the rows are saved. Any local page can read what is kept.");
    } catch (fault) {
      tellKept("Not kept: this browser has no room. Save the rows before you close the page.");
    }
  };
  const fetchKept = () => {
    try {
      const text = storage === null ? null : storage.getItem(place);
      state = text === null ? {} : JSON.parse(text);
      if (state === null || typeof state !== "object") state = {};
      tellKept(storage === null
        ? "Not kept: this browser stores nothing for this page. Save the rows before you close it."
        : text === null ? "What you type is kept in this browser until you say that the rows are saved. Any local page can read what is kept."
        : "Taken up where it was left.");
    } catch (fault) {
      state = {};
      tellKept("What was kept can't be read. Begin anew.");
    }
  };
  const forget = () => {
    try {
      if (storage !== null) storage.removeItem(place);
      tellKept("Saved. Nothing is kept in this browser any more.");
    } catch (fault) {
      tellKept("Saved.");
    }
  };
  const of = (sample) => Object.assign(state[sample.sample] ??= { fields: {}, sets: {} }, { table: "samples" });
  // The sets of a sample: "pre", "field 1" and so on, "post".
  const setOf = (sample, stage) => {
    const set = (of(sample).sets[stage] ??= { fields: {}, readings: [] });
    set.drafts ??= {};
    set.table = "readings";
    return set;
  };
  const stagesOf = (sample) =>
    ["pre", ...Array.from({ length: of(sample).between ?? 0 }, (none, i) => "field " + (i + 1)), "post"];

  // --- Figures as they are typed -------------------------------------------------------------------------------------
  const figure = (text) => {
    const plain = String(text ?? "").trim().replace(",", ".");
    return /^\d+(\.\d+)?$|^-\d+(\.\d+)?$/.test(plain) ? Number(plain) : NaN;
  };
  const inTheBook = (text, table) => String(text ?? "").trim().replace(/[.,]/, data.decimals[table]);
  // Why a figure can't be taken; "" where it can, and where there is none.
  const faultOf = (text, limits) => {
    const plain = String(text ?? "").trim();
    if (plain === "") return "";
    const value = figure(plain);
    if (Number.isNaN(value)) return "This is not a figure.";
    if (limits && (value < limits[0] || value > limits[1])) return "This can't be: the book takes " + limits[0] + " to " + limits[1] + ".";
    return "";
  };

  // --- Times as they are typed: what the clock showed ---------------------------------------------------------------
  // Where the clock was changed: { from, to, first, second } is an hour that it showed twice, { from, to } one that it left out.
  const changeAt = (time, table) => (data.clock_changes[table] ?? []).find((change) => time >= change.from && time < change.to);
  const isTwice = (time, table) => changeAt(time, table)?.first !== undefined;
  const isNever = (time, table) => { const change = time ? changeAt(time, table) : undefined; return change !== undefined && change.first === undefined; };
  const offsetOf = (holder, name) => isTwice(holder.fields[name] ?? "", holder.table) ? holder.fields[name + " offset"] ?? "" : "";
  const timeInTheBook = (holder, name) => (holder.fields[name] ?? "") + offsetOf(holder, name);
  // Texts in the order of the times: of an hour that was there twice the first one before the second.
  const inOrder = (holder, name) => {
    const time = holder.fields[name];
    const change = time ? changeAt(time, holder.table) : undefined;
    return change?.first === undefined ? time : change.from + (offsetOf(holder, name) === change.second ? "b" : "a") + time;
  };

  // --- What a display should show: looked up ------------------------------------------------------------------------
  const guideFor = (sample, calibrator) => data.guides[(sample.guide ?? {})[calibrator]] ?? null;
  const shownAt = (guide, celsius, kpa) => {
    const all = guide.shown;
    if (all.length === 3) return { nominal: all[0], low: all[1], high: all[2], at: "" };
    const air = data.air;
    const t = Math.round((celsius - air.celsius) / air.celsius_step);
    const p = Math.round((kpa - air.kpa) / air.kpa_step);
    if (Number.isNaN(t) || Number.isNaN(p)) return { lacks: "Temperature and pressure come first: what it should show goes by them." };
    if (t < 0 || p < 0 || t >= air.celsius_count || p >= air.kpa_count)
      return { lacks: "Such air is not in this form's table: the reading is not compared." };
    const i = 3 * (t * air.kpa_count + p);
    const words = (air.celsius + t * air.celsius_step) + " °C, " + (air.kpa + p * air.kpa_step) + " kPa";
    return { nominal: all[i], low: all[i + 1], high: all[i + 2], at: " at " + words };
  };
  const asShown = (guide, steps) => (steps * guide.step).toFixed(guide.decimals);
  const shouldShow = (guide, at) => {
    if (at.lacks !== undefined) return at.lacks;
    if (at.nominal === null) return "What it should show is not known.";
    const band = at.low === null && at.high === null ? "" :
      at.low === null ? ", at most " + asShown(guide, at.high) :
      at.high === null ? ", at least " + asShown(guide, at.low) :
      ", from " + asShown(guide, at.low) + " to " + asShown(guide, at.high);
    return "Should show " + asShown(guide, at.nominal) + band + at.at + ".";
  };
  // Where a figure lies outside the band, and what that would do.
  const beyond = (guide, at, value) => {
    if (at.lacks !== undefined || Number.isNaN(value)) return "";
    const steps = value / guide.step;
    const hair = 1e-6;
    const side = at.low !== null && steps < at.low - hair ? "below " + asShown(guide, at.low) :
      at.high !== null && steps > at.high + hair ? "above " + asShown(guide, at.high) : "";
    return side === "" ? "" : "This is " + side + at.at + ". The mean of the readings must be " + guide.rules.join("; and ") + ".";
  };

  // --- The page ------------------------------------------------------------------------------------------------------
  let numbers = 0;
  const field = (label, { choices, limits, ...attributes }, value, changed) => {
    const id = "f" + ++numbers;
    const input = choices !== undefined
      ? make("select", { id }, ...choices.map((word) => make("option", { value: word }, word === "" ? "–" : word)))
      : make("input", { id, autocomplete: "off", ...attributes });
    if (attributes.type === "checkbox") input.checked = value === "yes";
    else input.value = value ?? "";
    const told = make("output", { class: "told", for: id });
    const tell = (words, isAmiss = true) => {
      told.textContent = words;
      told.classList.toggle("amiss", isAmiss && words !== "");
      input.setAttribute("aria-invalid", String(isAmiss && words !== ""));
    };
    const listen = () => changed(attributes.type === "checkbox" ? (input.checked ? "yes" : "") : input.value, tell);
    input.addEventListener("change", listen);
    // A browser under load may give a touched field the focus without a caret, and drop what is typed then.
    if (input.type === "text") input.addEventListener("click", () => { if (!input.readOnly && input.value === "") input.setSelectionRange(0, 0); });
    return { input, tell, listen, element: make("div", { class: "field " + (attributes.kind ?? "") }, make("label", { for: id }, label), input, told) };
  };
  const number = { inputmode: "decimal", type: "text" };
  const kinds = { time: { type: "datetime-local" }, text: { type: "text" }, tick: { type: "checkbox" } };
  // A figure of a column of the book.
  // Columns of the samples that are typed only where a rule asks for them or the book has them, and the words on their fields.
  const onlyIfAsked = [["vacuum", "vacuum behind the sampler, kPa; 1 inHg is 3.386 kPa"],
    ["leak", "leak found by the test, L/min; 80 mL/min is 0.08 L/min"],
    ["interruptions", "interruptions: how often it stopped and went on"],
    ["pressure drop", "pressure drop over the sampler, kPa; 1 inHg is 3.386 kPa"],
    ["pulsation", "pulsation: how far the flow swings about its mean, %"]];
  const figureOf = (table, column) => ({ ...number, limits: data.limits[table][column] });
  // What there is to say of fields that lean on others is said anew whenever one was changed.
  const watchers = [];
  const lookAgain = () => { for (const look of watchers) look(); };
  // A field that is kept under a name: at each stroke, and judged when it is left.
  const keptField = (holder, name, label, kind, judge = () => "") => {
    const wanted = kinds[kind] ?? kind;
    const made = field(label, wanted, holder.fields[name], (value) => { holder.fields[name] = value; keep(); });
    const look = () => made.tell((wanted.limits && faultOf(holder.fields[name], wanted.limits)) || judge(holder.fields[name] ?? ""));
    watchers.push(look);
    if (made.input.type === "text") made.input.addEventListener("input", () => { holder.fields[name] = made.input.value; keep(); });
    return made.element;
  };
  // What the clock showed; where it showed the hour twice, the first or the second is asked for.
  const timeField = (holder, name, label, judge = () => "") => {
    const changes = (data.clock_changes[holder.table] ?? []).filter((change) => change.first !== undefined);
    const which = keptField(holder, name + " offset", "the clock showed this hour twice: before it was put back, or after",
      { choices: ["", ...new Set(changes.flatMap((change) => [change.first, change.second]))] });
    for (const option of which.querySelectorAll("option")) {
      if (changes.some((change) => change.first === option.value)) option.textContent = "before, " + option.value;
      if (changes.some((change) => change.second === option.value)) option.textContent = "after, " + option.value;
    }
    watchers.push(() => { which.hidden = !isTwice(holder.fields[name] ?? "", holder.table); });
    return make("div", {}, keptField(holder, name, label, "time", (value) =>
      isNever(value, holder.table) ? "The clock was put forward past this time." : judge(value)), which);
  };

  const now = () => new Date(Date.now() - 60000 * new Date().getTimezoneOffset()).toISOString().slice(0, 16);

  // A reading: what was typed stays; another figure stands beside it, and the first is struck out. Until the field is left
  // its text is a draft. The field stays the same element throughout: a finger may be on its way to it.
  const readingField = (sample, stage, index, context) => {
    const set = setOf(sample, stage);
    const all = (set.readings[index] ??= []);
    const counting = () => all.find((each) => !each.struck);
    const draft = (text) => { set.drafts[index] = text; keep(); };
    const made = field("reading " + (index + 1) + ", L/min", number, "", (value, tell) => {
      draft(value);
      const fault = faultOf(value, data.limits.readings.reading);
      tell(fault);
      if (fault !== "" || value.trim() === "" || counting() !== undefined) return;
      all.push({ value: value.trim(), struck: false });
      delete set.drafts[index];
      keep();
      show();
      context.changed();
    });
    made.input.addEventListener("input", () => draft(made.input.value));
    const amend = make("button", { type: "button", class: "amend" }, "amend");
    amend.addEventListener("click", () => askWhy(counting(), box, show, context));
    made.input.after(amend);
    const struck = make("div", {});
    const box = make("div", { class: "reading" }, struck, made.element);
    const tellAgain = () => { if (counting() !== undefined) made.tell(context.judge(figure(counting().value))); };
    const show = () => {
      box.querySelector(".why")?.remove();
      struck.replaceChildren(...all.filter((each) => each.struck).map((one) =>
        make("p", { class: "struck" }, make("s", {}, one.value), " struck out " + one.when.replace("T", " ") + " by " + one.who + ": " + one.why)));
      const one = counting();
      made.input.value = one?.value ?? set.drafts[index] ?? "";
      made.input.readOnly = one !== undefined;
      amend.hidden = one === undefined;
      if (one === undefined) made.tell(faultOf(made.input.value, data.limits.readings.reading));
      tellAgain();
    };
    show();
    return { box, tellAgain };
  };
  const askWhy = (counting, box, show, context) => {
    box.querySelector(".why")?.remove();
    const why = make("input", { type: "text", "aria-label": "why it is struck out" });
    const who = make("input", { type: "text", "aria-label": "initials", size: "4" });
    const done = make("button", { type: "button" }, "strike it out");
    const not = make("button", { type: "button" }, "leave it");
    box.append(make("div", { class: "why" }, make("label", {}, "why ", why), make("label", {}, "initials ", who), done, not));
    done.addEventListener("click", () => {
      if (why.value.trim() === "" || who.value.trim() === "") return (why.value.trim() === "" ? why : who).focus();
      Object.assign(counting, { struck: true, why: why.value.trim(), who: who.value.trim(), when: now() });
      keep();
      show();
      context.changed();
    });
    not.addEventListener("click", show);
    why.focus();
  };

  const setPart = (sample, stage, title, boxes, latest, judgeTime) => {
    const set = setOf(sample, stage);
    set.fields.calibrator ??= sample.calibrator;
    const part = make("fieldset", { class: "set" }, make("legend", {}, title));
    const should = make("p", { class: "should" });
    const grid = make("div", { class: "grid" });
    const readings = [];
    const look = () => {
      const calibrator = set.fields.calibrator ?? "";
      const guide = guideFor(sample, calibrator);
      const one = data.calibrators.find((each) => each.name === calibrator);
      const readAt = one?.read_at ? one.read_at[0].toUpperCase() + one.read_at.slice(1) + ". " : "";
      const at = guide === null ? null : shownAt(guide, figure(set.fields.temperature), figure(set.fields.pressure));
      const notes = (one?.notes ?? []).map((note) => note + " ").join("");
      should.textContent = calibrator === "" ? "" : notes + readAt + (guide === null ? "This form holds nothing to compare with for this calibrator." : stage === "pre" ? shouldShow(guide, at) : "");
      return { guide, at };
    };
    const context = {
      changed: () => { look(); for (const each of readings) each.tellAgain(); },
      judge: (value) => {
        const { guide, at } = look();
        return stage !== "pre" || guide === null ? "" : beyond(guide, at, value);
      },
    };
    const names = ["", ...data.calibrators.map((each) => each.name)];
    if (set.fields.calibrator && !names.includes(set.fields.calibrator)) names.push(set.fields.calibrator);
    const humid = data.calibrators.some((each) => each.asks_for_humidity);
    grid.append(keptField(set, "calibrator", "calibrator", { choices: names }), timeField(set, "taken", "date and time", judgeTime));
    for (const [name, label] of [["temperature", "temperature, °C"], ["pressure", "pressure, kPa"],
      ...(humid ? [["humidity", "humidity, %, for a bubble meter"]] : [])])
      grid.append(keptField(set, name, label, figureOf("readings", name)));
    grid.append(keptField(set, "by", "initials", "text"));
    watchers.push(context.changed);
    const list = make("div", { class: "grid readings" });
    const addBox = () => {
      const one = readingField(sample, stage, readings.length, context);
      readings.push(one);
      list.append(one.box);
    };
    set.boxes = Math.max(set.boxes ?? 0, boxes, set.readings.length);
    while (readings.length < set.boxes) addBox();
    part.append(grid, should, list, button("one more reading", () => { ++set.boxes; addBox(); keep(); }));
    if (latest) part.append(make("p", { class: "note" }, latest));
    look();
    return part;
  };

  const samplePart = (sample) => {
    const own = of(sample);
    own.fields.medium ??= sample.medium;
    if (sample.day && own.fields.started === undefined) own.fields.started = "";
    const words = [sample.pump, sample.serial, sample.sampler, sample.nominal === null ? "" : sample.nominal + " L/min", sample.method, sample.analysis].filter((word) => word);
    const part = make("details", { class: "sample", open: data.samples_of.length < 3 },
      make("summary", {}, make("bdi", {}, sample.sample), make("span", { class: "state" })),
      make("p", { class: "note" }, ...words.flatMap((word, i) => [i > 0 ? ", " : "", make("bdi", {}, word)])));
    const grid = make("div", { class: "grid" });
    grid.append(keptField(own, "medium", "cassette, filter or tube", "text"));
    if (sample.kind === "blank") {
      grid.append(timeField(own, "started", "opened at"), timeField(own, "stopped", "closed at", () => order(sample)),
        keptField(own, "note", "remarks", "text"), keptField(own, "blank", "it was handled as a blank", "tick"));
      part.append(grid);
      return part;
    }
    grid.append(keptField(own, "warm_up", "warm-up, min", figureOf("samples", "warm-up"), (value) =>
      sample.warm_up !== null && figure(value) < sample.warm_up ? "A rule asks for " + sample.warm_up + " min." : ""));
    part.append(grid, setPart(sample, "pre", "Before sampling", sample.pre_boxes, "", () => oddTime(sample, "pre")));
    const sampling = make("div", { class: "grid" });
    const day = (value) => sample.day && value && value.slice(0, 10) !== sample.day ? "It is planned for " + sample.day + "." : "";
    sampling.append(timeField(own, "started", "start", day), timeField(own, "stopped", "stop", () => howLong(sample)));
    for (const [name, label] of [["paused", "paused, min"], ["temperature", "temperature, °C"], ["pressure", "pressure, kPa"],
      ...onlyIfAsked.filter(([name]) => sample[name])])
      sampling.append(keptField(own, name, label, figureOf("samples", name)));
    for (const [name, label, kind] of [["by", "taken by", "text"],
      ["fault", "the pump had stopped, an inlet was not free, or another fault", "tick"], ["note", "remarks", "text"]])
      sampling.append(keptField(own, name, label, kind));
    part.append(make("fieldset", { class: "set" }, make("legend", {}, "Sampling"), sampling));
    const between = make("div", {});
    const addBetween = (number) => between.append(setPart(sample, "field " + number, "In between, check " + number, sample.field_boxes, "",
      () => oddTime(sample, "field " + number)));
    own.between ??= sample.field_asked > 0 ? 1 : 0;
    for (let i = 1; i <= own.between; ++i) addBetween(i);
    part.append(between, button("a check in between", () => { addBetween(++own.between); keep(); lookAgain(); }));
    part.append(setPart(sample, "post", "After sampling", sample.post_boxes,
      sample.latest_post === null ? "" : "A rule asks for it at most " + sample.latest_post + " min after the stop.",
      () => oddTime(sample, "post")));
    return part;
  };
  const areDaysApart = (earlier, later) => Date.parse(later + "Z") - Date.parse(earlier + "Z") > 36 * 3600000;
  const order = (sample) => {
    const own = of(sample);
    return own.fields.started && own.fields.stopped && inOrder(own, "stopped") <= inOrder(own, "started")
      ? "It stops before it starts: look at both, and at the dates." : "";
  };
  const howLong = (sample) => {
    const { started, stopped } = of(sample).fields;
    return order(sample) || (started && stopped && areDaysApart(started, stopped) ? "It runs for days: look at both dates." : "");
  };
  // What is odd about when a set was taken.
  const oddTime = (sample, stage) => {
    const own = of(sample);
    const taken = inOrder(setOf(sample, stage), "taken");
    const started = inOrder(own, "started");
    const stopped = inOrder(own, "stopped");
    if (!taken || !started || !stopped) return "";
    const on = setOf(sample, stage).fields.taken;
    if (stage === "pre" && areDaysApart(on, own.fields.started)) return "This is long before the start: look at both dates.";
    if (stage === "post" && areDaysApart(own.fields.stopped, on)) return "This is long after the stop: look at both dates.";
    if (stage === "pre" && taken > started) return "This is after the start: look at both, and at the dates.";
    if (stage === "post" && taken < stopped) return "This is before the stop: look at both, and at the dates.";
    if (stage.startsWith("field") && (taken < started || taken > stopped)) return "This is not between start and stop.";
    return "";
  };
  // A set that can't be what it is said to be: the book would not use it.
  const canNotBe = (sample, stage) => {
    const taken = inOrder(setOf(sample, stage), "taken");
    const start = inOrder(of(sample), "started");
    const stop = inOrder(of(sample), "stopped");
    return Boolean(taken && start && stop) && (stage === "pre" ? taken > stop : stage === "post" && taken < start);
  };

  // --- What is done, and what lacks ----------------------------------------------------------------------------------
  const counting = (sample, stage) => setOf(sample, stage).readings.flatMap((all) => (all ?? []).filter((one) => !one.struck));
  const drafts = (sample, stage) => Object.values(setOf(sample, stage).drafts).filter((text) => text.trim() !== "");
  const wordsOf = (stage) => stage === "pre" ? "before" : stage === "post" ? "after" : "in between";
  // Of a sample's own fields, or of a set's: what was typed and can't be taken.
  const faulty = (holder, words, times, figures) => [
    ...times.filter(([name]) => isTwice(holder.fields[name] ?? "", holder.table) && offsetOf(holder, name) === "")
      .map(([, label]) => "which of the two hours " + label + words + " was"),
    ...times.filter(([name]) => isNever(holder.fields[name] ?? "", holder.table)).map(([, label]) => "a time of " + label + words + " that there is"),
    ...figures.filter(([name, column]) => faultOf(holder.fields[name], data.limits[holder.table][column]) !== "")
      .map(([, column]) => "a figure for " + column + words),
  ];
  const lacks = (sample) => {
    const own = of(sample);
    const startAndStop = [["started", "the start"], ["stopped", "the stop"]];
    if (sample.kind === "blank") {
      return [...(own.fields.blank === "yes" ? [] : ["the tick that it was handled as a blank"]), ...(order(sample) === "" ? [] : ["a closing later than the opening"]),
        ...faulty(own, "", [["started", "the opening"], ["stopped", "the closing"]], [])];
    }
    const missing = startAndStop.filter(([name]) => !own.fields[name]).map(([, words]) => words);
    if (order(sample) !== "") missing.push("a stop later than the start");
    missing.push(...faulty(own, "", startAndStop, [["warm_up", "warm-up"], ["paused", "paused"], ["temperature", "temperature"], ["pressure", "pressure"], ...onlyIfAsked.map(([name]) => [name, name])]));
    for (const stage of stagesOf(sample)) {
      const set = setOf(sample, stage);
      const words = wordsOf(stage);
      const isRead = counting(sample, stage).length > 0;
      if (!isRead && !stage.startsWith("field")) missing.push("readings " + words);
      if (drafts(sample, stage).length > 0) missing.push("a reading " + words + " that is no figure yet");
      if (isRead && (!set.fields.taken || !set.fields.calibrator)) missing.push("time or calibrator of the readings " + words);
      if (canNotBe(sample, stage)) missing.push("a time of the readings " + words + " that is " + words + " sampling");
      missing.push(...faulty(set, " " + words, [["taken", "the readings"]], [["temperature", "temperature"], ["pressure", "pressure"], ["humidity", "humidity"]]));
    }
    return missing;
  };
  const isBegun = (sample) => {
    const one = of(sample);
    const typed = Object.entries(one.fields).some(([name, value]) => value && name !== "medium");
    return typed || stagesOf(sample).some((stage) =>
      setOf(sample, stage).readings.some((all) => (all ?? []).length > 0) || drafts(sample, stage).length > 0);
  };

  // --- Rows ----------------------------------------------------------------------------------------------------------
  const cell = (text) => {
    const plain = String(text ?? "");
    return /[",;\r\n\t]/.test(plain) ? '"' + plain.replaceAll('"', '""') + '"' : plain;
  };
  const table = (headings, columns, rows) =>
    [columns.map((name) => headings[name]), ...rows.map((row) => columns.map((name) => row[name]))].map((line) => line.map(cell).join(",") + "\n").join("");
  const sampleColumns = ["sample", "batch", "kind", "pump", "sampler", "nominal", "method", "analysis", "medium", "started", "stopped",
    "paused", "warm-up", ...onlyIfAsked.map(([name]) => name).filter((name) => data.samples_of.some((sample) => sample[name])), "temperature", "pressure", "fault", "by", "note", "form"];
  const readingColumns = ["taken", "stage", "sample", "calibrator", "reading", "temperature", "pressure", "humidity", "replicate", "set", "by", "void", "note", "form"];
  const finished = () => data.samples_of.filter((sample) => lacks(sample).length === 0);
  const sampleRows = () => finished().map((sample) => {
    const own = of(sample).fields;
    const isBlank = sample.kind === "blank";
    const figured = (text) => inTheBook(text, "samples");
    return { sample: sample.sample, batch: data.batch, kind: sample.kind, pump: sample.pump, sampler: sample.sampler,
      nominal: sample.nominal === null ? "" : figured(sample.nominal), method: sample.method, analysis: sample.analysis, medium: own.medium,
      started: timeInTheBook(of(sample), "started"), stopped: timeInTheBook(of(sample), "stopped"), paused: figured(own.paused),
      "warm-up": figured(own.warm_up), ...Object.fromEntries(onlyIfAsked.map(([name]) => [name, figured(own[name])])), temperature: figured(own.temperature), pressure: figured(own.pressure),
      fault: isBlank ? "" : own.fault === "yes" ? "yes" : "no", by: own.by, note: own.note, form: formName };
  });
  const readingRows = () => finished().filter((sample) => sample.kind !== "blank").flatMap((sample) => stagesOf(sample).flatMap((stage) => {
    const set = setOf(sample, stage);
    const figured = (text) => inTheBook(text, "readings");
    return set.readings.flatMap((all, i) => (all ?? []).map((one) => ({
      taken: timeInTheBook(set, "taken"), stage: stage.split(" ")[0], sample: sample.sample, calibrator: set.fields.calibrator, reading: figured(one.value),
      temperature: figured(set.fields.temperature), pressure: figured(set.fields.pressure), humidity: figured(set.fields.humidity),
      replicate: String(i + 1), set: sample.sample + " " + stage, by: set.fields.by, void: one.struck ? "yes" : "",
      note: one.struck ? "struck out " + one.when + " by " + one.who + ": " + one.why : "", form: formName,
    })));
  }));
  const filesNow = () => ({
    samples: table(data.samples_headings, sampleColumns, sampleRows()),
    readings: table(data.readings_headings, readingColumns, readingRows()),
  });
  const fileName = (what) => formName.replace(/[^A-Za-z0-9._-]+/g, "-") + "-" + what + ".csv";

  const save = (what) => {
    const address = URL.createObjectURL(new Blob([filesNow()[what]], { type: "text/csv" }));
    const link = make("a", { href: address, download: fileName(what) });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(address), 60000);
    saved[what] = true;
    if (!saved.samples || !saved.readings) return;
    const areAll = finished().length === data.samples_of.length;
    tellKept("See that both files have been saved. " + (areAll ? "Then forget what is kept here, at the end of the page." : "What is not finished is still kept in this browser."));
    forgetting.hidden = !areAll;
  };
  // A browser does not say whether a file was really saved: whoever saved it does.
  const forgetting = make("p", { hidden: true }, "Are both files where you will find them? ",
    button("yes, forget what is kept here", () => { forgetting.hidden = true; forget(); }));

  const end = document.getElementById("end");
  const summary = make("ul", {});
  const shown = make("textarea", { readonly: true, rows: "6", "aria-label": "the rows as text", hidden: true });
  const mark = () => {
    summary.replaceChildren();
    data.samples_of.forEach((sample, i) => {
      const missing = lacks(sample);
      const words = missing.length === 0 ? "finished" : isBegun(sample) ? "lacks " + missing.join(", ") : "not begun";
      parts[i].querySelector(".state").textContent = " " + words;
      if (missing.length > 0) summary.append(make("li", {}, make("bdi", {}, sample.sample), ": " + words + ". It is not among the rows yet."));
    });
    tellAround();
  };
  // Within the program's page, which gives this one its text, the rows are told as they come: it has them judged.
  const tellAround = () => {
    if (location.href === "about:srcdoc") window.parent.postMessage({ form: formName, finished: finished().length, ...filesNow() }, "*");
  };
  fetchKept();
  const parts = data.samples_of.map(samplePart);
  document.getElementById("form").replaceChildren(...parts);
  end.append(make("h2", {}, "Save the rows"), summary,
    make("p", { class: "note" }, "Two files: take both to where the book is, and give them to driftwarden receive."),
    button("save samples", () => save("samples")), button("save readings", () => save("readings")),
    button("show them as text", () => { const files = filesNow(); shown.hidden = false; shown.value = files.samples + "\n" + files.readings; }), forgetting, shown);
  document.addEventListener("change", () => { lookAgain(); mark(); });
  document.addEventListener("input", mark);
  lookAgain();
  mark();
  // Two windows would write over each other: what was typed last goes on, the other one rests.
  window.addEventListener("storage", (event) => {
    if (event.key !== place) return;
    for (const part of ["form", "end"]) document.getElementById(part).inert = true;
    tellKept("This form is open in another window and was typed into there. Go on there, or load this page again.");
  });
})();
