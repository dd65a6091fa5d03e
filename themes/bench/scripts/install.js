/* Where the site is served, lets it be installed and kept. From a folder there is nothing to do: it is offline already. */
"use strict";

(() => {
  if (location.protocol !== "https:" && location.protocol !== "http:") return;
  const root = new URL("../", document.currentScript.src);
  const own = document.currentScript.dataset.manifest;
  const manifest = document.createElement("link");
  manifest.rel = "manifest";
  manifest.href = own ? new URL(own, location.href).href : new URL("site.webmanifest", root).href;
  document.head.append(manifest);
  const workers = navigator.serviceWorker;
  if (!workers) return;
  workers.addEventListener("message", (event) => {
    if (event.data === "kept") document.documentElement.dataset.kept = "";
  });
  workers
    .register(new URL("worker.js", root).href)
    .then(() => workers.ready)
    .then((ready) => ready.active.postMessage(location.href.split("#")[0]))
    .catch(() => undefined);
})();
