// The lift crew's page asks again by itself. An answer that could not be asked again is no answer: it says so.

const EVERY_MS = 30_000;

async function fresh() {
  const answer = await fetch(location.href, { cache: "no-store" });
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  if (!answer.ok || !page.querySelector(".lift-sheet")) throw new Error("no answer");
  return page;
}

function show(page) {
  document.title = page.title;
  document.body.className = page.body.className;
  document.querySelector(".lift-sheet").replaceWith(page.querySelector(".lift-sheet"));
}

function tellThatItIsOld() {
  document.body.className = "lift lift-old";
  document.querySelector(".lift-word").textContent = "?";
  document.querySelector(".lift-why").textContent = document.querySelector(".lift-sheet").dataset.old;
}

async function askAgain() {
  try {
    show(await fresh());
  } catch {
    tellThatItIsOld();
  }
}

setInterval(askAgain, EVERY_MS);
