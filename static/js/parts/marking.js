// Drag on a photo, or tap where it begins and where it ends: the boxes below say from where to where, and a line shows
// it. The boxes work by themselves too, from a keyboard.

const NAMES = ["from_x", "from_y", "to_x", "to_y"];
const STILL = 3; // per cent of the photo that a wet thumb may slip and still be said to tap

export function start(part) {
  const photo = part.querySelector("svg.marked");
  const boxes = NAMES.map((name) => part.querySelector(`[name=${name}]`));
  if (boxes.some((box) => !box)) return;
  const kinds = part.querySelectorAll("[name=kind]");
  const said = part.querySelector("[data-marking-said]");
  const [, , wide, high] = photo.getAttribute("viewBox").split(" ").map(Number);
  const [halo, line] = ["marked-halo", "marked-line"].map((name, at) => {
    const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
    path.setAttribute("class", name);
    path.setAttribute("stroke-width", (Math.max(wide, high) / 130) * (at ? 1 : 2.2));
    photo.append(path);
    return path;
  });
  photo.classList.add("marking-on");
  let down = null; // where this finger came down
  let begun = null; // where a tap has set the beginning
  let is_drag = false;

  function at(event) {
    const spot = new DOMPoint(event.clientX, event.clientY).matrixTransform(photo.getScreenCTM().inverse());
    return [spot.x / wide, spot.y / high].map((share) => Math.round(100 * Math.min(1, Math.max(0, share))));
  }

  function course() {
    const ends = boxes.map((box, at) => (box.value === "" ? NaN : Number(box.value) / 100) * (at % 2 ? high : wide));
    const [x1, y1, x2, y2] = ends;
    if (!Number.isFinite(x1 + y1)) return "";
    if (!Number.isFinite(x2 + y2)) return `M ${x1} ${y1} h 0.01`; // a dot, until it has an end
    if (![...kinds].some((kind) => kind.checked && kind.value === "circle")) return arrow(x1, y1, x2, y2);
    const radius = Math.hypot(x2 - x1, y2 - y1);
    const half = (x) => `A ${radius} ${radius} 0 0 1 ${x} ${y1}`;
    return `M ${x1 - radius} ${y1} ${half(x1 + radius)} ${half(x1 - radius)}`;
  }

  function arrow(x1, y1, x2, y2) {
    const along = Math.atan2(y1 - y2, x1 - x2);
    const head = (5 * Math.max(wide, high)) / 130;
    const [one, other] = [-0.5, 0.5].map((turn) => `${x2 + head * Math.cos(along + turn)} ${y2 + head * Math.sin(along + turn)}`);
    return `M ${x1} ${y1} L ${x2} ${y2} M ${one} L ${x2} ${y2} L ${other}`;
  }

  function show() {
    for (const path of [halo, line]) path.setAttribute("d", course());
  }

  function put(...shares) {
    boxes.forEach((box, place) => { box.value = shares[place] ?? ""; });
    show();
  }

  function done() {
    begun = null;
    said.textContent = "It stands in the boxes below. Say what it shows, then draw it.";
    boxes[3].dispatchEvent(new Event("change", { bubbles: true }));
  }

  photo.addEventListener("pointerdown", (event) => {
    if (!event.isPrimary) return;
    event.preventDefault();
    down = at(event);
    is_drag = false;
    photo.setPointerCapture(event.pointerId);
  });
  photo.addEventListener("pointermove", (event) => {
    if (!down || !event.isPrimary) return;
    const here = at(event);
    is_drag ||= Math.hypot(here[0] - down[0], here[1] - down[1]) > STILL;
    if (is_drag) put(...down, ...here);
  });
  photo.addEventListener("pointerup", (event) => {
    if (!down || !event.isPrimary) return;
    const tapped = down;
    down = null;
    if (is_drag) return done();
    if (begun) {
      put(...begun, ...tapped);
      return done();
    }
    begun = tapped;
    put(...begun);
    said.textContent = "It begins there. Tap where it ends.";
  });
  photo.addEventListener("pointercancel", () => { down = null; });
  for (const box of [...boxes, ...kinds]) box.addEventListener("input", show);
  show();
}
