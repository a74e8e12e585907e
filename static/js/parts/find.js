// Results as one types, walked with the arrow keys. Without this script the box is a plain search form.

const PAUSE_MS = 150;

export function start(form) {
  const box = form.querySelector("input[type=search]");
  const found = form.querySelector(".find-found");
  let waiting, asking, asked = "";

  async function ask() {
    const typed = box.value.trim();
    asking?.abort();
    if (!typed) return close();
    asking = new AbortController();
    try {
      const address = `${form.action}?q=${encodeURIComponent(typed)}`;
      const answer = await fetch(address, { headers: { "HX-Request": "true" }, signal: asking.signal });
      if (answer.ok) found.innerHTML = await answer.text();
      asked = typed;
    } catch (stopped) {
      if (stopped.name !== "AbortError") found.textContent = "No answer from the yard's machine.";
    }
  }

  function close() {
    asking?.abort();
    found.replaceChildren();
    asked = "";
  }

  function step(by) {
    const stops = [box, ...found.querySelectorAll("a")];
    const here = stops.indexOf(document.activeElement);
    stops[Math.max(0, Math.min(stops.length - 1, here + by))].focus();
  }

  box.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(ask, PAUSE_MS);
  });
  form.addEventListener("keydown", (event) => {
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      event.preventDefault();
      step(event.key === "ArrowDown" ? 1 : -1);
    } else if (event.key === "Escape") {
      close();
      box.focus();
    } else if (event.key === "Enter" && event.target === box && asked === box.value.trim()) {
      const best = found.querySelector("a");
      if (best) {
        event.preventDefault();
        best.click();
      }
    }
  });
  document.addEventListener("pointerdown", (event) => form.contains(event.target) || close());
}
