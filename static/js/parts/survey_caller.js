// One cell at a time, in digits that are read at arm's length: one person calls, one types.

export function openCaller(part, cells) {
  const dialog = part.querySelector("[data-caller]");
  const open = part.querySelector("[data-survey-big]");
  const [place, box, told, count] = ["#caller-place", "#caller-box", "[data-caller-said]", "[data-caller-count]"].map(
    (name) => dialog.querySelector(name),
  );
  let at = 0;

  const firstEmpty = () => Math.max(0, cells.findIndex((cell) => !cell.value));

  function show() {
    const cell = cells[at];
    place.textContent = cell.getAttribute("aria-label");
    box.value = cell.value;
    count.textContent = `${cells.filter((one) => one.value).length} of ${cells.length} read`;
    box.focus();
    box.select();
  }

  function keep() {
    const cell = cells[at];
    if (cell.value === box.value.trim()) return;
    cell.value = box.value.trim();
    cell.dispatchEvent(new Event("input", { bubbles: true }));
  }

  function step(by) {
    keep();
    const next = at + by;
    if (next >= cells.length) return close();
    at = Math.max(0, next);
    show();
  }

  function skip() {
    if (at + 1 >= cells.length) return close();
    at += 1;
    show();
  }

  function close() {
    dialog.close();
    cells[at].focus();
  }

  // What the server says of the last cells: a figure that can't be read first, then what stands far off.
  function tell() {
    const wrong = part.querySelector("#looked [data-wrong]") || part.querySelector("#looked [data-warning]");
    told.textContent = wrong ? wrong.textContent.trim() : part.querySelector("#looked .lede b")?.textContent || "";
  }

  open.hidden = !cells.length;
  open.addEventListener("click", () => {
    at = firstEmpty();
    dialog.showModal();
    show();
    tell();
  });
  box.addEventListener("input", (event) => {
    event.stopPropagation();
    keep();
  });
  box.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || event.isComposing) return;
    event.preventDefault();
    step(event.shiftKey ? -1 : 1);
  });
  dialog.querySelector("[data-caller-next]").addEventListener("click", () => step(1));
  dialog.querySelector("[data-caller-back]").addEventListener("click", () => step(-1));
  dialog.querySelector("[data-caller-skip]").addEventListener("click", skip);
  dialog.querySelector("[data-caller-close]").addEventListener("click", () => { keep(); close(); });
  part.addEventListener("htmx:after:swap", tell);
}
