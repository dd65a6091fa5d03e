/* What this browser keeps for the reader, and nobody else sees: one small record a page.
 *
 * partwayKept.works is false where keeping is refused; then what is put is there until the page is closed.
 */
"use strict";

const partwayKept = (() => {
  const memory = new Map();
  let store = null;
  try {
    store = window.localStorage;
    store.setItem("partway:try", "1");
    store.removeItem("partway:try");
  } catch {
    store = null;
  }
  const keyOf = (name) => `partway:${name}`;
  return {
    works: store !== null,
    /** Name of a record that belongs to this page alone. */
    ofPage: (name) => `${location.pathname}${location.search} ${name}`,
    get: (name) => {
      try {
        return JSON.parse(store ? store.getItem(keyOf(name)) : memory.get(name) || "null");
      } catch {
        return null;
      }
    },
    put: (name, value) => {
      memory.set(name, JSON.stringify(value));
      try {
        if (store) store.setItem(keyOf(name), JSON.stringify(value));
      } catch {
        /* The room is used up: it stays in memory. */
      }
    },
  };
})();
