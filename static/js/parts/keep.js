// What is typed is kept on this device until the server has said "saved". A retry carries the same one-time token, so it saves once.

const PREFIX = "keep ";
const ANSWER_MS = 3000;
const STUCK_MS = 15000;
const KEPT_DAYS = 30;
const NEVER = ["password", "hidden", "file", "submit", "button"];
// once: a retry saves once. version: a draft made on an older record still meets the merge page.
const TOKENS = ["once", "version"];
const NO_ANSWER = "No answer from the yard's machine. Not saved yet. What you typed is kept here.";

const isKept = (box) => box.name && !NEVER.includes(box.type) && box.autocomplete !== "one-time-code" && !/pin|password/i.test(box.name);
const boxesOf = (form) => [...form.elements].filter(isKept);
const timeOf = (ms) => new Date(ms).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });

function drafts() {
  return Object.keys(localStorage).filter((key) => key.startsWith(PREFIX));
}

function read(key) {
  try {
    return JSON.parse(localStorage.getItem(key));
  } catch {
    return null;
  }
}

export function dropSaved() {
  const saved = [...document.querySelectorAll("meta[name=saved]")].map((meta) => meta.content);
  const oldest = Date.now() - KEPT_DAYS * 86400000;
  for (const key of drafts()) {
    const draft = read(key);
    if (!draft || draft.at < oldest || (draft.once && saved.includes(draft.once))) localStorage.removeItem(key);
  }
}

function keyOf(form) {
  const address = new URL(form.getAttribute("action") || "", location.href);
  return PREFIX + [document.body.dataset.person, address.pathname + address.search, form.dataset.key || ""].join(" ");
}

function valuesOf(form) {
  return boxesOf(form).map((box) => {
    const ticks = box.type === "checkbox" || box.type === "radio";
    return { name: box.name, value: box.value, ...(ticks && { checked: box.checked }) };
  });
}

function isBlank(form) {
  return boxesOf(form).every((box) => {
    if (box.type === "checkbox" || box.type === "radio") return box.checked === box.defaultChecked;
    if (box.tagName === "SELECT") return [...box.options].every((option) => option.selected === option.defaultSelected || !box.value);
    return !box.value || (box.type === "date" && box.value === box.defaultValue);
  });
}

function fill(form, draft) {
  const left = [...draft.values];
  for (const box of boxesOf(form)) {
    const ticks = box.type === "checkbox" || box.type === "radio";
    const at = left.findIndex((kept) => kept.name === box.name && (!ticks || kept.value === box.value));
    if (at < 0) continue;
    const [kept] = left.splice(at, 1);
    if (ticks) box.checked = kept.checked;
    else box.value = kept.value;
    box.dispatchEvent(new Event("input", { bubbles: true }));
  }
  for (const name of TOKENS) if (draft[name] && form.elements[name]) form.elements[name].value = draft[name];
}

async function answers() {
  if (!navigator.onLine) return false;
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), ANSWER_MS);
  try {
    return (await fetch("/alive", { cache: "no-store", signal: stop.signal })).ok;
  } catch {
    return false;
  } finally {
    clearTimeout(timer);
  }
}

function statusOf(form) {
  const part = document.createElement("div");
  part.className = "keep";
  part.setAttribute("role", "status");
  const low = [...form.querySelectorAll(".acts")].pop();
  if (low) low.before(part);
  else form.append(part);
  return function say(words, acts = [], stopped = false) {
    part.classList.toggle("keep-stopped", stopped);
    const text = Object.assign(document.createElement("span"), { className: "keep-text", textContent: words });
    const row = Object.assign(document.createElement("div"), { className: "keep-acts" });
    for (const [label, act] of acts) {
      const button = Object.assign(document.createElement("button"), { type: "button", textContent: label });
      button.addEventListener("click", act);
      row.append(button);
    }
    part.replaceChildren(...(words ? [text, row] : []));
  };
}

export function start(form) {
  dropSaved();
  const key = keyOf(form);
  const say = statusOf(form);
  let sending = "";
  let filling = false;

  function keep() {
    const tokens = Object.fromEntries(TOKENS.map((name) => [name, form.elements[name]?.value || ""]));
    try {
      localStorage.setItem(key, JSON.stringify({ at: Date.now(), ...tokens, values: valuesOf(form) }));
      return true;
    } catch {
      return false;
    }
  }

  function drop() {
    localStorage.removeItem(key);
    form.reset();
    say("");
  }

  function offer(draft) {
    const photo = form.querySelector("input[type=file]") ? " Choose the photo again." : "";
    const use = (words) => {
      filling = true;
      fill(form, draft);
      filling = false;
      say(words + photo, [["Drop it", drop]]);
    };
    if (isBlank(form)) use(`Kept from ${timeOf(draft.at)} and filled in again. Not saved yet.`);
    else {
      say(`Kept from ${timeOf(draft.at)}, not saved yet:`, [
        ["Use it", () => use("Filled in again. Not saved yet.")],
        ["Drop it", () => { localStorage.removeItem(key); say(""); }],
      ]);
    }
  }

  const draft = read(key);
  if (draft && JSON.stringify(draft.values) !== JSON.stringify(valuesOf(form))) offer(draft);
  else if (draft) say("Not saved yet.");

  form.addEventListener("input", (event) => {
    if (filling || !isKept(event.target)) return;
    say(keep() ? "Not saved yet. Kept here as you type." : "Not saved yet.");
  });

  form.addEventListener("submit", async (event) => {
    if (sending === "sure") {
      sending = "sent";
      return;
    }
    event.preventDefault();
    if (sending) return;
    sending = "asking";
    const submitter = event.submitter;
    keep();
    say("Sending…");
    if (await answers()) {
      sending = "sure";
      form.requestSubmit(submitter);
      setTimeout(() => { sending = ""; }, STUCK_MS);
    } else {
      sending = "";
      say(NO_ANSWER, [["Try again", () => form.requestSubmit(submitter)]], true);
    }
  });

  addEventListener("pageshow", () => { sending = ""; });
}
