// A sheet of any method but the survey, kept box by box. On one that was begun in the other system, bare figures are read
// so: what this person's own boxes would make of them does not stand there.

import { openWriting } from "../writing.js";

export function start(part) {
  if ("foreign" in part.dataset) for (const line of part.querySelectorAll("[data-part=understood]")) line.remove();
  openWriting(part);
}
