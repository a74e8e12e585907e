// A survey's grid: the next cell on Enter, arrows, a pasted block; every cell kept as it is typed.

import { openWriting } from "../writing.js";
import { openCaller } from "./survey_caller.js";

const LAYOUT = ["radii", "angles", "way", "stations", "blades", "unit"];

export function start(part) {
  const form = part.closest("form");
  const boxes = part.querySelector("[data-writing-boxes]");
  const rows = [...part.querySelectorAll("[data-grid-row]")].map((row) => [...row.querySelectorAll("input")]);
  const cells = rows.flat();
  const { say } = openWriting(part, { layout: LAYOUT });

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

  part.addEventListener("htmx:after:swap", () => mark());

  function mark() {
    const wrong = [...part.querySelectorAll("[data-wrong]")].map((line) => line.dataset.wrong);
    for (const cell of cells) cell.toggleAttribute("aria-invalid", wrong.includes(cell.id));
    for (const cell of cells) if (cell.hasAttribute("aria-invalid")) cell.setAttribute("aria-invalid", "true");
  }

  openCaller(part, cells);
}
