// Sound, buzz and words at a warning, where this phone can. Browsers let a page sound only after a tap on it.

let sound = null;

export const isOn = () => sound?.state === "running";
export const canSound = () => "AudioContext" in window;

export async function unlock() {
  if (!canSound()) return false;
  sound ??= new AudioContext();
  await sound.resume();
  return isOn();
}

function beep(hertz, from, length) {
  const tone = sound.createOscillator();
  const loud = sound.createGain();
  tone.type = "square";
  tone.frequency.value = hertz;
  loud.gain.setValueAtTime(0.4, from);
  loud.gain.exponentialRampToValueAtTime(0.001, from + length);
  tone.connect(loud).connect(sound.destination);
  tone.start(from);
  tone.stop(from + length);
}

export function warn(words) {
  navigator.vibrate?.([400, 150, 400]);
  if (isOn()) for (const turn of [0, 1, 2]) beep(880, sound.currentTime + turn * 0.35, 0.3);
  if (isOn() && words && "speechSynthesis" in window) speechSynthesis.speak(new SpeechSynthesisUtterance(words));
}

let lock = null;

export const canStayAwake = () => "wakeLock" in navigator;

export async function stayAwake() {
  if (!canStayAwake() || document.visibilityState !== "visible" || (lock && !lock.released)) return;
  try {
    lock = await navigator.wakeLock.request("screen");
  } catch {
    lock = null; // a phone that saves its battery says no
  }
}
