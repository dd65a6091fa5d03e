/* Looking words up: every entry of find-index.js goes into a search that forgives wrong letters.
 *
 * Keys: arrow down and up walk from the field through what was found. What was asked stays in the address, so that going
 * back from a page shows the same again.
 */
"use strict";

(() => {
  const { say } = partwaySays;
  const MOST = 40;
  const LONGEST_QUOTE = 140;
  const place = document.getElementById("find");
  if (!place || typeof MiniSearch === "undefined" || typeof partwayEntries === "undefined") return;

  const plain = (word) => word.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  const search = new MiniSearch({
    fields: ["name", "kind", "where", "text"],
    processTerm: plain,
    searchOptions: {
      boost: { name: 4, where: 1.5 },
      prefix: (term) => term.length > 1,
      fuzzy: (term) => (term.length > 3 ? 0.25 : false),
    },
  });
  search.addAll(partwayEntries.map(([kind, name, where, href, text], id) => ({ id, kind, name, where, href, text })));

  const made = (tag, name, text = "") => {
    const element = document.createElement(tag);
    if (name) element.className = name;
    element.textContent = text;
    return element;
  };

  const label = made("label", "find__label", say("A part, a step, a screw, a tool"));
  const field = made("input", "find__field");
  field.type = "search";
  field.id = "find-words";
  field.autocomplete = "off";
  field.spellcheck = false;
  label.htmlFor = field.id;
  const count = made("p", "find__count");
  count.setAttribute("aria-live", "polite");
  const results = made("ul", "find__results");
  place.replaceChildren(label, field, count, results);

  /** The words around the first that was found, cut at whole words. */
  const quoteOf = (text, terms) => {
    const lower = plain(text);
    const at = Math.max(0, Math.min(...terms.map((term) => lower.indexOf(term)).filter((index) => index >= 0), Infinity));
    const from = at === Infinity || at < 40 ? 0 : text.lastIndexOf(" ", at - 30) + 1;
    const rest = text.slice(from);
    const cut = rest.length > LONGEST_QUOTE ? `${rest.slice(0, rest.lastIndexOf(" ", LONGEST_QUOTE))} …` : rest;
    return from ? `… ${cut}` : cut;
  };

  const resultFor = ({ id, terms, match }) => {
    const [kind, name, where, href, text] = partwayEntries[id];
    const item = made("li", "find__result");
    const link = made("a", "find__link");
    link.href = href;
    link.append(made("span", "find__name", name), made("span", "find__where", where ? `${kind}, ${where}` : kind));
    if (text && terms.some((term) => match[term].includes("text"))) {
      link.append(made("span", "find__text", quoteOf(text, terms.filter((term) => match[term].includes("text")))));
    }
    item.append(link);
    return item;
  };

  const look = () => {
    const words = field.value.trim();
    history.replaceState(null, "", words ? `#q=${encodeURIComponent(words)}` : "#find");
    let found = words ? search.search(words, { combineWith: "AND" }) : [];
    if (!found.length && words) found = search.search(words);
    results.replaceChildren(...found.slice(0, MOST).map(resultFor));
    if (!words) count.textContent = "";
    else if (!found.length) count.textContent = say("Nothing found. Try another word for it.");
    else count.textContent = found.length > MOST ? say("{number} found, the nearest {shown} shown", { number: found.length, shown: MOST }) : say("{number} found", { number: found.length });
  };

  place.addEventListener("keydown", (event) => {
    if (event.key !== "ArrowDown" && event.key !== "ArrowUp") return;
    const stops = [field, ...results.querySelectorAll("a")];
    const next = stops.indexOf(document.activeElement) + (event.key === "ArrowDown" ? 1 : -1);
    if (stops[next]) {
      event.preventDefault();
      stops[next].focus();
    }
  });
  field.addEventListener("input", look);
  const asked = /^#q=(.*)$/.exec(location.hash);
  if (asked) {
    try {
      field.value = decodeURIComponent(asked[1]);
    } catch {
      field.value = "";
    }
    look();
  }
  field.focus({ preventScroll: true });
})();
