// Starts the script of every part on the page; a part that htmx brings later is started when it arrives.

const started = new WeakSet();

function startParts(root) {
  for (const element of root.querySelectorAll("[data-part]")) {
    if (started.has(element)) continue;
    started.add(element);
    import(`./parts/${element.dataset.part}.js`).then((part) => part.start(element));
  }
}

startParts(document);

if (document.querySelector("meta[name=saved]")) import("./parts/keep.js").then((keep) => keep.dropSaved());

if (document.querySelector("[hx-get], [hx-post]")) {
  const script = document.createElement("script");
  script.src = document.querySelector("script[data-htmx]").dataset.htmx;
  document.head.append(script);
  document.addEventListener("htmx:after:swap", () => startParts(document));
}
