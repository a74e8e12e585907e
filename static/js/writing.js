// A sheet in the writing: every box kept on the yard's machine as it is typed, and on this device till then.
// The sheet begins there with its first box; what others write meanwhile comes back.

const PREFIX = "writing ";
const PAUSE_MS = 400;
const RETRY_MS = 3000;
const LOOK_MS = 5000;
const STUCK_MS = 15000;

function stored(key) {
  try {
    return JSON.parse(localStorage.getItem(key)) || {};
  } catch {
    return {};
  }
}

function store(key, kept) {
  try {
    if (Object.keys(kept).length) localStorage.setItem(key, JSON.stringify(kept));
    else localStorage.removeItem(key);
    return true;
  } catch {
    return false;
  }
}

const newToken = () => Array.from(crypto.getRandomValues(new Uint32Array(4)), (part) => part.toString(36)).join("-");

// `layout`: boxes that change which boxes there are. Gives `say` and `flush`.
export function openWriting(part, { layout = [] } = {}) {
  const form = part.closest("form");
  const boxes = part.querySelector("[data-writing-boxes]");
  const said = part.querySelector("[data-writing-said]");
  const shown = part.querySelector("[data-writing-version]");
  const person = document.body.dataset.person;
  let { boxes: address = "", begin = "" } = part.dataset;
  let key = `${PREFIX}${person} ${address || begin}`;
  const waiting = stored(key);
  let timer, sending, isOver = false, isSure = false;

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
    form.elements.seen.value = answer.version;
    if (shown) shown.value = answer.version;
    let isOthers = false;
    for (const [name, { typed, by }] of Object.entries(answer.boxes)) {
      if (name in waiting || !put(name, typed)) continue;
      isOthers = true;
      if (layout.includes(name)) return over(`${by} laid it out anew.`, location.href, "Open it as it is now");
    }
    if (isOthers) boxes.dispatchEvent(new Event("change", { bubbles: true }));
    if (answer.kept_at) over("This sheet was kept.", answer.kept_at, "The sheet that it became");
  }

  function over(words, href, label) {
    isOver = true;
    say(words, { isStopped: true, href, label });
  }

  const signedOut = () => over("You are signed out. What you typed is kept here.", location.href, "Sign in and go on");

  function move(to) {
    store(key, {});
    address = `${to}/boxes`;
    key = `${PREFIX}${person} ${address}`;
    form.setAttribute("action", to);
    form.elements.seen.value = 0;
    history.replaceState(null, "", to);
  }

  // The whole form goes, so that what the register filled in stands on the sheet too; a retry begins it once.
  async function beginSheet() {
    part.dataset.token ||= newToken();
    const body = new FormData(form);
    body.set("once", part.dataset.token);
    const answer = await fetch(begin, { method: "POST", body });
    if (!answer.redirected) return over("Not kept: open the page anew.", location.href, "Open it as it is now");
    const to = new URL(answer.url).pathname;
    if (!to.includes("/half-done/")) return signedOut();
    move(to);
    store(key, waiting);
  }

  async function send() {
    if (!address) await beginSheet();
    if (isOver) return;
    const batch = { ...waiting };
    const body = new FormData();
    body.set("csrf_token", form.elements.csrf_token.value);
    body.set("seen", form.elements.seen.value);
    body.set("boxes", JSON.stringify(batch));
    const answer = await fetch(address, { method: "POST", body });
    if (answer.redirected) return signedOut();
    const told = await answer.json();
    if (!answer.ok) return over(told.said, location.href, "Open it as it is now");
    for (const [name, text] of Object.entries(batch)) if (waiting[name] === text) delete waiting[name];
    store(key, waiting);
    take(told);
    if (!isOver) say(`Kept on the yard's machine, version ${told.version}.`);
  }

  function stopped() {
    const left = count() === 1 ? "1 box is kept here." : count() ? `${count()} boxes are kept here.` : "";
    say(`No answer from the yard's machine. Not saved yet. ${left}`, { isStopped: true });
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
    if (!address || document.hidden || isOver || count() || sending) return;
    try {
      const answer = await fetch(`${address}?seen=${form.elements.seen.value}`, { cache: "no-store" });
      if (answer.ok && !answer.redirected) take(await answer.json());
    } catch { /* the next look, or the next box, will tell */ }
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

  // What was typed before this script had arrived.
  for (const box of boxes.querySelectorAll("input:not([type=hidden]):not([type=radio]), textarea")) {
    if (box.name && box.value !== box.defaultValue) waiting[box.name] ??= box.value;
  }
  for (const [name, text] of Object.entries(waiting)) put(name, text);
  if (count()) flush().then(() => boxes.dispatchEvent(new Event("change", { bubbles: true })));
  else if (!isOver) say("Kept on the yard's machine as you type.");
  addEventListener("online", flush);
  setInterval(look, LOOK_MS);
  return { say, flush };
}
