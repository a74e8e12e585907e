// Under a size box: what the server read, in both systems. The page holds no second copy of the grammar.

const PAUSE_MS = 250;

export function start(line) {
  const box = document.getElementById(line.dataset.box);
  let waiting, asking;

  async function ask() {
    asking?.abort();
    if (!box.value.trim()) return line.replaceChildren();
    asking = new AbortController();
    const words = new URLSearchParams({ text: box.value, kind: line.dataset.kind, assume: line.dataset.assume });
    try {
      const answer = await fetch(`${line.dataset.ask}?${words}`, { signal: asking.signal });
      if (answer.ok || answer.status === 422) line.innerHTML = await answer.text();
      else line.replaceChildren();
    } catch (stopped) {
      if (stopped.name !== "AbortError") line.replaceChildren();
    }
  }

  box.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(ask, PAUSE_MS);
  });
  // The unit was assumed: one tap says the other one.
  line.addEventListener("click", (tap) => {
    const flip = tap.target.closest("[data-flip]");
    if (!flip) return;
    box.value = flip.dataset.flip;
    box.dispatchEvent(new Event("input", { bubbles: true }));
    box.focus();
  });
  if (box.value) ask();
}
