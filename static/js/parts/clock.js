// Counts down between answers. The server said how much is left; the time of this device is never asked, only how long ago that was.

function inWords(seconds) {
  const left = Math.abs(seconds);
  const two = (number) => String(number).padStart(2, "0");
  const hours = Math.floor(left / 3600);
  const minutes = Math.floor((left % 3600) / 60);
  return hours ? `${hours}:${two(minutes)}:${two(left % 60)}` : `${minutes}:${two(left % 60)}`;
}

export function start(clock) {
  const from = performance.now();
  const digits = clock.querySelector(".clock-left");
  const label = clock.querySelector(".clock-label");

  function tick() {
    if (!clock.isConnected) return clearInterval(ticking);
    const left = Math.round(Number(clock.dataset.leftS) - (performance.now() - from) / 1000);
    digits.textContent = inWords(left);
    label.textContent = left < 0 ? clock.dataset.over : clock.dataset.label;
    clock.classList.toggle("clock-over", left < 0);
  }

  const ticking = setInterval(tick, 1000);
  tick();
}
