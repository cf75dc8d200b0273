"use strict";
// The page is whole without this: it adds a filter, sorting, and opening all workings at once.
(() => {
  const box = document.getElementById("filter");
  const tables = [...document.querySelectorAll("table.samples")];
  const earlier = document.getElementById("earlier");
  if (!box || tables.length === 0) return;

  const COLUMN = { verdict: 1, batch: 2, pump: 3 };
  const lines = tables.flatMap((table) =>
    [...table.tBodies].map((body) => {
      const cells = [...body.rows[0].cells].map((cell) => cell.textContent);
      return {
        body,
        cells,
        isRecent: table === tables[0] && !(earlier && earlier.contains(table)),
        text: (cells.join(" ") + " " + (body.querySelector(".findings")?.textContent ?? "")).toLowerCase(),
      };
    }));

  const make = (tag, properties = {}, ...children) => {
    const element = Object.assign(document.createElement(tag), properties);
    element.append(...children);
    return element;
  };

  const chooser = (name, column, order) => {
    const found = [...new Set(lines.map((line) => line.cells[column]))].filter((word) => word !== "");
    const words = order ? order.filter((word) => found.includes(word)) : found.sort();
    const select = make("select", { id: "filter-" + name }, make("option", { value: "" }, "all"));
    for (const word of words) select.append(make("option", { value: word }, word));
    return select;
  };

  const verdict = chooser("verdict", COLUMN.verdict, ["void", "undecided", "qualified", "valid"]);
  const batch = chooser("batch", COLUMN.batch);
  const pump = chooser("pump", COLUMN.pump);
  const text = make("input", { id: "filter-text", type: "search", autocomplete: "off" });
  const clear = make("button", { type: "button" }, "Show all");
  const toggle = make("button", { type: "button" }, "Open all workings");
  const count = make("p", { className: "count", id: "filter-count" });
  count.setAttribute("role", "status");

  const labelled = (label, control) => make("div", {}, make("label", { htmlFor: control.id }, label), control);
  const form = make("div", { className: "controls" }, labelled("Verdict", verdict), labelled("Batch", batch),
    labelled("Pump", pump), labelled("Text", text), make("div", {}, clear, toggle));
  form.setAttribute("role", "search");
  form.setAttribute("aria-label", "Samples");
  box.append(form, count);
  box.hidden = false;

  const isWanted = (line) => {
    const words = text.value.trim().toLowerCase();
    return (verdict.value === "" || line.cells[COLUMN.verdict] === verdict.value) &&
      (batch.value === "" || line.cells[COLUMN.batch] === batch.value) &&
      (pump.value === "" || line.cells[COLUMN.pump] === pump.value) &&
      (words === "" || line.text.includes(words));
  };

  const filter = () => {
    let recent = 0;
    let before = 0;
    for (const line of lines) {
      const wanted = isWanted(line);
      line.body.hidden = !wanted;
      if (wanted) line.isRecent ? recent++ : before++;
    }
    const isFiltered = verdict.value + batch.value + pump.value + text.value.trim() !== "";
    count.textContent = recent + " from these days shown" + (earlier ? ", " + before + " earlier" : "") + ".";
    if (earlier && isFiltered && recent === 0 && before > 0) earlier.open = true;
    clear.disabled = !isFiltered;
  };

  for (const control of [verdict, batch, pump, text]) for (const event of ["input", "change"]) control.addEventListener(event, filter);
  clear.addEventListener("click", () => {
    for (const control of [verdict, batch, pump, text]) control.value = "";
    filter();
    verdict.focus();
  });

  toggle.addEventListener("click", () => {
    const shown = lines.filter((line) => !line.body.hidden).map((line) => line.body.querySelector("details"));
    const opens = toggle.textContent.startsWith("Open");
    for (const working of shown) if (working) working.open = opens;
    toggle.textContent = opens ? "Close all workings" : "Open all workings";
  });

  // Sorting: figures by size, words by their letters, verdicts by their weight; what is missing comes last.
  const WEIGHT = ["void", "undecided", "qualified", "valid"];
  const keyOf = (word, isFigure) => {
    if (word === "") return null;
    if (isFigure) return Number(word);
    const weight = WEIGHT.indexOf(word);
    return weight >= 0 ? String(weight) : word;
  };
  const compare = (a, b) => {
    if (a === null || b === null) return (a === null) - (b === null);
    return typeof a === "number" ? a - b : a.localeCompare(b, "en", { numeric: true });
  };

  const sort = (table, column, heading) => {
    const descends = heading.getAttribute("aria-sort") === "ascending";
    for (const other of table.tHead.rows[0].cells) other.removeAttribute("aria-sort");
    heading.setAttribute("aria-sort", descends ? "descending" : "ascending");
    const isFigure = heading.classList.contains("figure");
    const bodies = [...table.tBodies].map((body) => ({ body, key: keyOf(body.rows[0].cells[column].textContent, isFigure) }));
    bodies.sort((a, b) => {
      if (a.key === null || b.key === null) return compare(a.key, b.key);
      return descends ? compare(b.key, a.key) : compare(a.key, b.key);
    });
    table.append(...bodies.map((item) => item.body));
  };

  for (const table of tables) {
    [...table.tHead.rows[0].cells].forEach((heading, column) => {
      const button = make("button", { type: "button", className: "sort" }, heading.textContent);
      heading.replaceChildren(button);
      button.addEventListener("click", () => sort(table, column, heading));
    });
  }

  // A link to a sample that is filtered away or folded up shows it.
  const reveal = () => {
    const target = document.getElementById(decodeURIComponent(location.hash.slice(1)));
    if (!target || !target.closest("table.samples")) return;
    target.hidden = false;
    if (earlier && earlier.contains(target)) earlier.open = true;
    target.scrollIntoView({ block: "center" });
  };
  window.addEventListener("hashchange", reveal);
  filter();
  reveal();
})();
