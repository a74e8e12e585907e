// Drag on a photo: the boxes below it say from where to where, and a line shows it. The boxes work by themselves too.

const NAMES = ["from_x", "from_y", "to_x", "to_y"];

export function start(part) {
  const photo = part.querySelector("svg.marked");
  const boxes = NAMES.map((name) => part.querySelector(`[name=${name}]`));
  if (boxes.some((box) => !box)) return;
  const [, , wide, high] = photo.getAttribute("viewBox").split(" ").map(Number);
  const line = document.createElementNS("http://www.w3.org/2000/svg", "path");
  line.setAttribute("class", "marked-line");
  line.setAttribute("stroke-width", Math.max(wide, high) / 130);
  photo.append(line);
  photo.classList.add("marking-on");
  let from = null;

  function at(event) {
    const spot = new DOMPoint(event.clientX, event.clientY).matrixTransform(photo.getScreenCTM().inverse());
    return [spot.x / wide, spot.y / high].map((share) => Math.round(100 * Math.min(1, Math.max(0, share))));
  }

  function show() {
    const [x1, y1, x2, y2] = boxes.map((box, at) => (box.value === "" ? NaN : Number(box.value) / 100) * (at % 2 ? high : wide));
    const whole = [x1, y1, x2, y2].every(Number.isFinite);
    line.setAttribute("d", whole ? `M ${x1} ${y1} L ${x2} ${y2}` : "");
  }

  photo.addEventListener("pointerdown", (event) => {
    event.preventDefault();
    from = at(event);
    photo.setPointerCapture(event.pointerId);
  });
  photo.addEventListener("pointermove", (event) => {
    if (!from) return;
    [...from, ...at(event)].forEach((share, place) => { boxes[place].value = share; });
    show();
  });
  photo.addEventListener("pointerup", () => {
    if (from) boxes[3].dispatchEvent(new Event("change", { bubbles: true }));
    from = null;
  });
  for (const box of boxes) box.addEventListener("input", show);
  show();
}
