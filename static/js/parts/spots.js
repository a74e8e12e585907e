// A tap on the picture sets blade and radius without leaving the page; without script the same tap is a link.

export function start(part) {
  const blade = part.querySelector("[name=blade]");
  const radius = part.querySelector("[name=radius_ratio]");

  part.addEventListener("click", (tap) => {
    const spot = tap.target.closest("a[data-blade]");
    if (!spot) return;
    tap.preventDefault();
    choose(blade, spot.dataset.blade);
    choose(radius, spot.dataset.radius);
    for (const one of part.querySelectorAll("a[data-blade]")) {
      const [, dot] = one.querySelectorAll("circle");
      dot.classList.toggle("fillink", one === spot);
      dot.classList.toggle("fillpaper", one !== spot);
    }
  });
}

function choose(box, value) {
  box.value = value;
  for (const said of ["input", "change"]) box.dispatchEvent(new Event(said, { bubbles: true }));
}
