/* Loads the page anew when what it shows has changed. */
"use strict";
(() => {
  const version = document.currentScript.dataset.version;
  const changes = new EventSource(`/-/changes?since=${encodeURIComponent(version)}`);
  changes.addEventListener("changed", () => {
    changes.close();
    location.reload();
  });
})();
