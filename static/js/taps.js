// Taps beside the boat. Each is kept on this phone, with the time at which it was made, until the yard's machine has answered;
// it carries a token of its own, so that sending it twice saves it once.

const KEPT = "coating taps";
const ANSWER_MS = 4000;

function read() {
  try {
    return JSON.parse(localStorage.getItem(KEPT)) || [];
  } catch {
    return [];
  }
}

const write = (taps) => localStorage.setItem(KEPT, JSON.stringify(taps));
const change = (once, said) => write(read().map((tap) => (tap.once === once ? { ...tap, ...said } : tap)));

export const waiting = () => read().filter((tap) => !tap.refused);
export const refused = () => read().filter((tap) => tap.refused);
export const drop = (once) => write(read().filter((tap) => tap.once !== once));

function token() {
  // randomUUID is for HTTPS alone; a yard's network has none.
  return btoa(String.fromCharCode(...crypto.getRandomValues(new Uint8Array(18)))).replaceAll("+", "-").replaceAll("/", "_");
}

export function keep(address, values, words, at) {
  const tap = { once: token(), address, values, words, at };
  write([...read(), tap]);
  return tap;
}

async function send(tap, csrf, isLate) {
  const body = new URLSearchParams({ ...tap.values, once: tap.once, csrf_token: csrf });
  if (isLate) body.set("at", tap.at.toFixed(3));
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), ANSWER_MS);
  try {
    return await fetch(tap.address, { method: "POST", body, headers: { "Yard-Tap": "1" }, redirect: "follow", signal: stop.signal });
  } finally {
    clearTimeout(timer);
  }
}

let sending = null;

// Sends what waits, oldest first, and stops at the first that gets no answer. Gives "sent", "silent", "stale" or "signed out".
export function flush(csrf, yardNow) {
  sending ??= run(csrf, yardNow).finally(() => { sending = null; });
  return sending;
}

async function run(csrf, yardNow) {
  for (let tap = waiting()[0]; tap; tap = waiting()[0]) {
    let answer;
    try {
      // A tap that is sent at once has the server's own time; only one that had to wait brings its own.
      answer = await send(tap, csrf, yardNow() - tap.at > LATE_S);
    } catch {
      return "silent";
    }
    if (new URL(answer.url).pathname.startsWith("/people/")) return "signed out";
    if (answer.status === 409) return "stale"; // somebody signed in anew: the page must be opened again
    if (answer.ok) drop(tap.once);
    else if (answer.status < 500) change(tap.once, { refused: (await answer.text()).slice(0, 300) });
    else return "silent";
  }
  return "sent";
}

export const LATE_S = 3;
