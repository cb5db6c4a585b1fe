// A table of cells to type into. Python sends texts and faults; what is typed goes back as edits,
// each with a number; what Python has not seen by its next answer is sent again.

const tables = new WeakMap(); // what is kept of a table from one answer to the next

export default function (component) {
  const { data, parentElement, setTriggerValue } = component;
  let box = parentElement.querySelector(".box");
  if (!box) {
    box = document.createElement("div");
    box.className = "box";
    const faults = document.createElement("div");
    faults.setAttribute("role", "status");
    const sideways = document.createElement("p");
    sideways.className = "sideways";
    parentElement.append(box, faults, sideways);
    const look = () => tellSideways(box, sideways);
    box.addEventListener("scroll", look);
    new ResizeObserver(look).observe(box);
  }
  const kept = tables.get(box) ?? { edits: [], number: 0, seen: data.seen, shape: "",
    focus: data.focus[1] < 0 ? data.focus[0] : -1 };
  tables.set(box, kept);
  kept.send = () => setTriggerValue("edited", kept.edits);
  kept.number = Math.max(kept.number, data.seen);
  kept.edits = kept.edits.filter((edit) => edit.number > data.seen);
  const shape = JSON.stringify([data.headings, data.rows.map(
    (row) => row.map((cell) => cell.choices ?? cell.kind ?? cell.text))]);
  if (shape !== kept.shape) {
    kept.shape = shape;
    build(box, data, kept);
  }
  update(box, data, kept);
  if (data.focus[0] !== kept.focus) {
    kept.focus = data.focus[0];
    goTo(cellAt(box, ...data.focus.slice(1)));
  }
  tell(box, data, (number) => setTriggerValue("asked", number));
  if (data.seen !== kept.seen && kept.edits.length) kept.send();
  kept.seen = data.seen;
}

function build(box, data, kept) {
  const table = document.createElement("table");
  table.setAttribute("aria-label", data.label);
  const head = table.createTHead();
  const upper = head.insertRow();
  const lower = head.insertRow();
  const begins = data.headings.map(([over], column) => column > 0 && over !== ""
    && over !== data.headings[column - 1][0]);
  data.headings.forEach(([over, under], column) => {
    const same = column > 0 && over && !begins[column];
    if (same) upper.lastChild.colSpan += 1;
    else upper.appendChild(heading(over, begins[column]));
    lower.appendChild(heading(under, begins[column], data.rows[0][column].kind));
  });
  const body = table.createTBody();
  data.rows.forEach((row, r) => {
    const line = body.insertRow();
    row.forEach((cell, c) => {
      const place = document.createElement(c === 0 ? "th" : "td");
      if (c === 0) place.scope = "row";
      place.classList.toggle("begins", begins[c]);
      if (cell.label) place.appendChild(field(box, kept, cell, r, c));
      else place.textContent = cell.text;
      if (cell.kind === "text" && row[c + 1]?.text === "") place.colSpan = 2;
      if (line.lastChild?.colSpan !== 2) line.appendChild(place);
    });
  });
  box.replaceChildren(table);
}

function heading(text, begins, kind) {
  const cell = document.createElement("th");
  cell.className = `${begins ? "begins" : ""} ${kind ?? ""}`;
  cell.scope = "col";
  cell.textContent = text;
  return cell;
}

function field(box, kept, cell, row, column) {
  const one = document.createElement(cell.choices ? "select" : "input");
  for (const choice of cell.choices ?? []) one.add(new Option(choice));
  if (!cell.choices) {
    one.type = "text";
    one.autocomplete = "off";
    one.spellcheck = false;
    one.className = cell.kind;
    one.addEventListener("focus", () => one.select());
    one.addEventListener("paste", (event) => paste(event, box, kept, one));
  }
  one.dataset.row = row;
  one.dataset.column = column;
  one.addEventListener("change", () => commit(kept, [one]));
  one.addEventListener("keydown", (event) => move(event, box, kept, one));
  return one;
}

function update(box, data, kept) {
  const widest = data.headings.map((_, c) => Math.max(...data.rows.map((r) => r[c].text.length)));
  const waiting = new Set(kept.edits.map((edit) => `${edit.row},${edit.column}`));
  data.rows.forEach((row, r) => row.forEach((cell, c) => {
    const one = cellAt(box, r, c);
    if (!one) return; // words
    const typing = one.matches(":focus") && one.value !== (one.dataset.sent ?? one.dataset.shown);
    if (!waiting.has(`${r},${c}`) && !typing) one.value = cell.text;
    one.dataset.shown = cell.text;
    delete one.dataset.sent;
    one.setAttribute("aria-label", cell.label);
    one.setAttribute("aria-invalid", cell.fault ? "true" : "false");
    one.title = cell.fault ?? "";
    if (cell.kind === "text" || cell.kind === "end") one.style.width = `${widest[c] + 2.5}ch`;
  }));
}

function tell(box, data, ask) {
  const list = document.createElement("ul");
  for (const fault of data.faults) {
    const line = list.appendChild(document.createElement("li"));
    const place = document.createElement(fault.number !== null ? "button" : "b");
    place.textContent = fault.place;
    place.addEventListener("click", () => {
      const one = fault.here && cellAt(box, ...fault.here);
      if (one) goTo(one);
      else ask(fault.number);
    });
    line.append(place, `: ${fault.words}`);
  }
  const count = document.createElement("p");
  const many = data.faults.length;
  count.textContent = many ? `✕ ${many} ${many === 1 ? "fault" : "faults"}.`
    : "Every cell can be read. Whether the boat is sound is said with its drawing and its checks.";
  count.className = many ? "fault" : "";
  box.nextSibling.replaceChildren(count, ...(many ? [list] : []));
}

/** Says that there are columns out of sight, and on which side; a phone shows no scroll bar. */
function tellSideways(box, words) {
  const left = box.scrollLeft > 1;
  const right = box.scrollLeft + box.clientWidth < box.scrollWidth - 1;
  box.classList.toggle("more-left", left);
  box.classList.toggle("more-right", right);
  words.textContent = left || right
    ? `${right ? "More columns to the right" : "More columns to the left"}: move the table sideways.`
    : "";
}

function goTo(one) {
  requestAnimationFrame(() => {
    one?.focus();
    one?.scrollIntoView({ block: "center", inline: "nearest" });
  });
}

function commit(kept, fields) {
  const changed = fields.filter((one) => one.value !== one.dataset.shown);
  for (const one of changed) {
    kept.number += 1;
    one.dataset.sent = one.value;
    kept.edits.push({ number: kept.number, row: Number(one.dataset.row),
      column: Number(one.dataset.column), text: one.value });
  }
  if (changed.length) kept.send();
}

function move(event, box, kept, one) {
  const select = one.tagName === "SELECT";
  const step = { ArrowUp: -1, ArrowDown: 1, Enter: event.shiftKey ? -1 : 1 }[event.key];
  if (event.key === "Escape" && !select) {
    one.value = one.dataset.shown;
    one.select();
  } else if (step && !(select && event.key !== "Enter")) {
    event.preventDefault();
    commit(kept, [one]);
    cellAt(box, Number(one.dataset.row) + step, one.dataset.column)?.focus();
  }
}

function paste(event, box, kept, one) {
  const text = event.clipboardData.getData("text/plain").replace(/\r?\n$/, "");
  if (!/[\t\n]/.test(text)) return; // one cell: the browser's own paste
  event.preventDefault();
  const filled = [];
  text.split(/\r?\n/).forEach((line, down) => line.split("\t").forEach((piece, along) => {
    const to = cellAt(box, Number(one.dataset.row) + down, Number(one.dataset.column) + along);
    const fits = to && (to.tagName !== "SELECT" || [...to.options].some((o) => o.value === piece.trim()));
    if (fits) {
      to.value = piece.trim();
      filled.push(to);
    }
  }));
  commit(kept, filled);
}

function cellAt(box, row, column) {
  return box.querySelector(`[data-row="${row}"][data-column="${column}"]`);
}
