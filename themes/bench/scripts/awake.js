/* Keeping the screen on while hands are wet, where the browser can; the browser lets go when the page is hidden, so it is
 * asked again when the page comes back.
 */
"use strict";

(() => {
  const { say } = partwaySays;
  const desk = document.getElementById("desk");
  if (!desk || !("wakeLock" in navigator)) return;
  const button = document.createElement("button");
  button.type = "button";
  button.className = "desk__button";
  const said = document.createElement("span");
  said.className = "desk__said";
  said.setAttribute("role", "status");
  desk.querySelector(".desk__line").append(button, said);

  let isWanted = false;
  let lock = null;

  const show = (words = "") => {
    button.textContent = isWanted ? say("Let the screen go dark") : say("Keep the screen on");
    said.textContent = words || (lock ? say("The screen stays on.") : "");
    said.hidden = !said.textContent;
  };

  const ask = async () => {
    try {
      lock = await navigator.wakeLock.request("screen");
      lock.addEventListener("release", () => {
        lock = null;
        show();
      });
      show();
    } catch {
      isWanted = false;
      show(say("This browser does not keep the screen on."));
    }
  };

  button.addEventListener("click", () => {
    isWanted = !isWanted;
    if (isWanted) ask();
    else if (lock) lock.release();
    show();
  });
  document.addEventListener("visibilitychange", () => {
    if (isWanted && !lock && document.visibilityState === "visible") ask();
  });
  show();
})();
