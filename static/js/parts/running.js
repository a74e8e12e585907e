// The page beside the boat: asks the yard's machine all the time what is to be done now, sounds at warnings, and keeps taps made
// without network. The clock is the server's; this device only counts how long ago it was told. Without this script each act is a form.

import * as alarm from "../alarm.js";
import * as taps from "../taps.js";
import { start as startClock } from "./clock.js";

const ASK_MS = 1900; // with the answer on its way, no phone is more than two seconds behind
const ANSWER_MS = 4000;
const DRIFT_S = 1.5;
const STALE_ALARM_S = 60;
const TOLD = "coating told of the screen";
const HIDDEN = ["csrf_token", "once", "at"];
const SIGN_IN = "Sign in again; what was tapped is kept here with its time.";

export function start(part) {
  const now = part.querySelector("[data-running-now]");
  const said = part.querySelector("[data-running-said]");
  let ahead = Number(part.dataset.time) - Date.now() / 1000; // the server's clock, seen from this device's
  let heard = yardNow();
  let sounded = yardNow();

  function yardNow() {
    return Date.now() / 1000 + ahead;
  }

  const shown = () => now.firstElementChild?.dataset ?? {};
  const csrf = () => part.querySelector("input[name=csrf_token]").value;

  function show(html) {
    const held = now.contains(document.activeElement) ? document.activeElement.value : "";
    const opened = [...now.querySelectorAll("details[open]")].map((one) => one.id);
    now.innerHTML = html;
    for (const id of opened) if (id) document.getElementById(id)?.setAttribute("open", "");
    for (const clock of now.querySelectorAll("[data-part=clock]")) startClock(clock);
    if (held) now.querySelector(`button[value="${CSS.escape(held)}"]`)?.focus();
    if (shown().kind === "weather") part.querySelector("#weather-box")?.setAttribute("open", "");
    mark();
  }

  async function ask(whole = false) {
    const answer = await answered(`${part.dataset.ask}${whole ? "" : `?seen=${shown().seen}`}`);
    if (!answer) return silent();
    if (answer.type === "opaqueredirect") return tell(SIGN_IN);
    const theirs = Number(answer.headers.get("Yard-Time"));
    const drifted = Math.abs(theirs - yardNow()) > DRIFT_S;
    ahead = theirs - Date.now() / 1000;
    heard = yardNow();
    listen(); // what has come due is told before what stood here is replaced
    if (answer.html) show(answer.html);
    else if (drifted) return await ask(true); // this device slept: its clocks stood still
    if (await sendKept()) return await ask(true);
    tell();
  }

  // The whole answer, or nothing when there was none in time.
  async function answered(address) {
    const stop = new AbortController();
    const timer = setTimeout(() => stop.abort(), ANSWER_MS);
    try {
      const answer = await fetch(address, { cache: "no-store", redirect: "manual", signal: stop.signal });
      if (answer.type !== "opaqueredirect" && !answer.ok) return null;
      return { type: answer.type, headers: answer.headers, html: answer.status === 200 ? await answer.text() : "" };
    } catch {
      return null;
    } finally {
      clearTimeout(timer);
    }
  }

  // Whether anything was sent: then there is news.
  async function sendKept() {
    if (!taps.waiting().length) return false;
    const came = await taps.flush(csrf(), yardNow);
    if (came === "signed out") tell(SIGN_IN);
    if (came === "stale") location.reload();
    return came === "sent";
  }

  function silent() {
    const minutes = Math.floor((yardNow() - heard) / 60);
    const since = minutes ? `for ${minutes} min` : "just now";
    tell(`No answer from the yard's machine ${since}. The clocks run on. Taps are kept on this phone with their time and sent later.`);
    now.querySelector("#any-piece")?.setAttribute("open", "");
  }

  function tell(words = "") {
    const lines = [...(words ? [line(words)] : []), ...taps.waiting().map((tap) => line(`Kept here, not sent yet: ${tap.words}`))];
    for (const tap of taps.refused()) lines.push(line(`Not saved: ${tap.words}. ${tap.refused}`, tap.once));
    const fresh = lines.map((one) => one.textContent).join("\n");
    if (said.dataset.lines === fresh) return;
    said.dataset.lines = fresh;
    said.replaceChildren(...lines);
    mark();
  }

  function line(words, once) {
    const made = Object.assign(document.createElement("p"), { className: "said said-refused" });
    made.append(Object.assign(document.createElement("span"), { textContent: words }));
    if (once) {
      const button = Object.assign(document.createElement("button"), { type: "button", textContent: "Seen, drop it" });
      button.addEventListener("click", () => { taps.drop(once); tell(); });
      made.append(button);
    }
    return made;
  }

  // What was tapped here and not sent yet can't be tapped again.
  function mark() {
    const kept = new Set(taps.waiting().map((tap) => tap.values.tap));
    for (const button of now.querySelectorAll("button[name=tap]")) button.disabled = kept.has(button.value);
  }

  async function tapped(event) {
    const button = event.submitter;
    if (button?.name !== "tap") return;
    event.preventDefault();
    event.stopPropagation(); // what is typed is kept as a tap, not as a draft
    alarm.unlock();
    alarm.stayAwake();
    const form = event.target;
    const values = Object.fromEntries([...new FormData(form)].filter(([name]) => !HIDDEN.includes(name)));
    const tap = taps.keep(form.action, { ...values, tap: button.value }, button.dataset.words, yardNow());
    mark();
    const came = await taps.flush(csrf(), yardNow);
    if (came === "sent") {
      if (!taps.refused().some((one) => one.once === tap.once)) settle(form);
      await ask(true);
    } else if (came === "silent") {
      settle(form);
      silent();
    } else if (came === "stale") location.reload();
    else tell(SIGN_IN);
  }

  // A box beside the blades is empty again once what stood in it is kept.
  function settle(form) {
    if (now.contains(form) || form.contains(now)) return;
    form.reset();
    form.closest("details")?.removeAttribute("open");
  }

  function listen() {
    const present = yardNow();
    for (const one of now.querySelectorAll("[data-alarm]")) {
      const due = Number(one.dataset.alarm);
      if (due > sounded && due <= present && present - due < STALE_ALARM_S) {
        alarm.warn(one.dataset.words);
        part.dataset.sounded = one.dataset.words;
      }
    }
    sounded = present;
  }

  function offerSound() {
    const button = part.querySelector("[data-running-sound]");
    button.hidden = !alarm.canSound();
    button.addEventListener("click", async () => {
      alarm.stayAwake();
      if (await alarm.unlock()) {
        alarm.warn("");
        button.textContent = "Sound is on";
      }
    });
  }

  function sayOnceOfTheScreen() {
    const note = part.querySelector("[data-running-screen]");
    note.hidden = alarm.canStayAwake() || localStorage.getItem(TOLD) !== null;
    note.querySelector("button").addEventListener("click", () => {
      localStorage.setItem(TOLD, "1");
      note.hidden = true;
    });
  }

  part.addEventListener("submit", tapped, true);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState !== "visible") return;
    alarm.stayAwake();
    ask(true);
  });
  offerSound();
  sayOnceOfTheScreen();
  tell();
  sendKept().then(() => ask());
  const asking = setInterval(() => (part.isConnected ? ask() : clearInterval(asking)), ASK_MS);
  setInterval(listen, 500);
}
