// A survey's grid: the next cell on Enter, arrows, a pasted block; every cell kept on the server as it is typed, and here till then.

import { openCaller } from "./survey_caller.js";

const PREFIX = "survey ";
const PAUSE_MS = 400;
const RETRY_MS = 3000;
const LOOK_MS = 5000;
const STUCK_MS = 15000;
const LAYOUT = ["radii", "angles", "way", "stations", "blades", "unit"];

function stored(key) {
  try {
    return JSON.parse(localStorage.getItem(key)) || {};
  } catch {
    return {};
  }
}

function store(key, waiting) {
  try {
    if (Object.keys(waiting).length) localStorage.setItem(key, JSON.stringify(waiting));
    else localStorage.removeItem(key);
    return true;
  } catch {
    return false;
  }
}

export function start(part) {
  const form = part.closest("form");
  const boxes = part.querySelector("[data-survey-boxes]");
  const said = part.querySelector("[data-survey-said]");
  const shown = part.querySelector("[data-survey-version]");
  const key = `${PREFIX}${document.body.dataset.person} ${part.dataset.boxes}`;
  const rows = [...part.querySelectorAll("[data-grid-row]")].map((row) => [...row.querySelectorAll("input")]);
  const cells = rows.flat();
  const waiting = stored(key);
  let timer, sending, isOver = false, isSure = false;

  const seen = () => form.elements.seen;
  const count = () => Object.keys(waiting).length;

  function say(words, { isStopped = false, href = "", label = "" } = {}) {
    said.classList.toggle("grid-stopped", isStopped);
    said.replaceChildren(words);
    if (href) said.append(" ", Object.assign(document.createElement("a"), { href, textContent: label }));
  }

  function put(name, text) {
    const box = form.elements[name];
    if (!box || box.value === text) return false;
    box.value = text;
    return true;
  }

  function take(answer) {
    seen().value = shown.value = answer.version;
    let isOthers = false;
    for (const [name, { typed, by }] of Object.entries(answer.boxes)) {
      if (name in waiting || !put(name, typed)) continue;
      isOthers = true;
      if (LAYOUT.includes(name)) return over(`${by} laid it out anew.`, location.href, "Open it as it is now");
    }
    if (isOthers) boxes.dispatchEvent(new Event("change", { bubbles: true }));
    if (answer.kept_at) over("This survey was kept.", answer.kept_at, "The sheet that it became");
  }

  function over(words, href, label) {
    isOver = true;
    say(words, { isStopped: true, href, label });
  }

  async function send() {
    const batch = { ...waiting };
    const body = new FormData();
    body.set("csrf_token", form.elements.csrf_token.value);
    body.set("seen", seen().value);
    body.set("boxes", JSON.stringify(batch));
    const answer = await fetch(part.dataset.boxes, { method: "POST", body });
    if (answer.redirected) return over("You are signed out. What you typed is kept here.", location.href, "Sign in and go on");
    const told = await answer.json();
    if (!answer.ok) return over(told.said, location.href, "Open it as it is now");
    for (const [name, text] of Object.entries(batch)) if (waiting[name] === text) delete waiting[name];
    store(key, waiting);
    take(told);
    if (!isOver) say(`Kept on the yard's machine, version ${told.version}.`);
  }

  function stopped() {
    const boxes = count() === 1 ? "1 box is kept here." : count() ? `${count()} boxes are kept here.` : "";
    say(`No answer from the yard's machine. Not saved yet. ${boxes}`, { isStopped: true });
    timer = setTimeout(flush, RETRY_MS);
  }

  async function isThere() {
    try {
      return (await fetch("/alive", { cache: "no-store", signal: AbortSignal.timeout(RETRY_MS) })).ok;
    } catch {
      return false;
    }
  }

  async function flush() {
    clearTimeout(timer);
    if (sending) await sending;
    if (!count() || isOver) return count() === 0;
    sending = send().catch(stopped);
    await sending;
    sending = null;
    if (count() && !isOver && !said.classList.contains("grid-stopped")) return flush();
    return count() === 0;
  }

  async function look() {
    if (document.hidden || isOver || count() || sending) return;
    try {
      const answer = await fetch(`${part.dataset.boxes}?seen=${seen().value}`, { cache: "no-store" });
      if (answer.ok && !answer.redirected) take(await answer.json());
    } catch { /* the next look, or the next cell, will tell */ }
  }

  function go(cell) {
    if (!cell) return form.querySelector(".acts-low .act-main")?.focus();
    cell.focus();
    cell.select();
  }

  function beside(cell, key) {
    const row = rows.findIndex((one) => one.includes(cell));
    const column = rows[row].indexOf(cell);
    const isEmpty = cell.selectionStart === 0 && cell.selectionEnd === cell.value.length;
    const at = (edge) => isEmpty || (cell.selectionStart === edge && cell.selectionEnd === edge);
    if (key === "ArrowUp") return rows[row - 1]?.[column];
    if (key === "ArrowDown") return rows[row + 1]?.[column];
    if (key === "ArrowLeft" && at(0)) return rows[row][column - 1];
    if (key === "ArrowRight" && at(cell.value.length)) return rows[row][column + 1];
    return null;
  }

  function paste(cell, text) {
    const block = text.replace(/\r/g, "").replace(/\n+$/, "").split("\n").map((line) => line.split(/\t|;/));
    if (block.length === 1 && block[0].length === 1) return false;
    const top = rows.findIndex((one) => one.includes(cell));
    const left = rows[top].indexOf(cell);
    let lost = 0, last = cell;
    block.forEach((line, down) => line.forEach((piece, right) => {
      const target = rows[top + down]?.[left + right];
      if (!target) return piece.trim() && lost++;
      target.value = piece.trim().replace(/^"(.*)"$/, "$1");
      target.dispatchEvent(new Event("input", { bubbles: true }));
      last = target;
    }));
    go(last);
    if (lost) say(`${lost} pasted figures found no cell.`, { isStopped: true });
    return true;
  }

  boxes.addEventListener("input", (event) => {
    const box = event.target;
    if (!box.name || box.type === "hidden") return;
    waiting[box.name] = box.value;
    const isHere = store(key, waiting);
    if (isOver) return;
    say(isHere ? "Not saved yet. Kept here as you type." : "Not saved yet.");
    clearTimeout(timer);
    timer = setTimeout(flush, PAUSE_MS);
  });

  boxes.addEventListener("keydown", (event) => {
    if (!cells.includes(event.target) || event.isComposing) return;
    const at = cells.indexOf(event.target);
    const next = event.key === "Enter" ? (event.shiftKey ? cells[at - 1] : cells[at + 1]) : beside(event.target, event.key);
    if (event.key !== "Enter" && !next) return;
    event.preventDefault();
    go(next);
  });

  boxes.addEventListener("paste", (event) => {
    if (cells.includes(event.target) && paste(event.target, event.clipboardData.getData("text"))) event.preventDefault();
  });

  form.addEventListener("submit", async (event) => {
    if (isSure) return;
    event.preventDefault();
    const { submitter } = event;
    say("Sending…");
    if (!(await isThere()) || !(await flush())) {
      if (!isOver) stopped();
      return;
    }
    isSure = true;
    form.requestSubmit(submitter);
    setTimeout(() => { isSure = false; }, STUCK_MS);
  });

  part.addEventListener("htmx:after:swap", () => mark());

  function mark() {
    const wrong = [...part.querySelectorAll("[data-wrong]")].map((line) => line.dataset.wrong);
    for (const cell of cells) cell.toggleAttribute("aria-invalid", wrong.includes(cell.id));
    for (const cell of cells) if (cell.hasAttribute("aria-invalid")) cell.setAttribute("aria-invalid", "true");
  }

  openCaller(part, cells);
  for (const [name, text] of Object.entries(waiting)) put(name, text);
  if (count()) flush();
  else say("Kept on the yard's machine as you type.");
  addEventListener("online", flush);
  setInterval(look, LOOK_MS);
}
