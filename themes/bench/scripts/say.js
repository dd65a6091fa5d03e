/* Words in the language of the page: from partwayWords (words.js beside the pages of that language), else as they stand.
 *
 * partwayWords = {texts: {english: text or [plural forms]}, forms: [the form for 0, 1, ... 199], comma, pair, last}
 * Names in braces are filled in; a tilde is a space at which no line breaks.
 */
"use strict";

const partwaySays = (() => {
  const words = typeof partwayWords === "undefined" ? { texts: {}, forms: null, comma: ", ", pair: " and ", last: " and " } : partwayWords;
  const own = (text) => (Object.hasOwn(words.texts, text) ? words.texts[text] : null);
  const filled = (text, fields) => text.split("~").join("\u00a0").replace(/\{(\w+)\}/g, (whole, name) => (Object.hasOwn(fields, name) ? String(fields[name]) : whole));

  const say = (text, fields = {}) => {
    const said = own(text) || text;
    return filled(Array.isArray(said) ? said[0] : said, fields);
  };

  /** The plural form for `n`; {n} in it is the number. Forms go round by the hundred. */
  const sayMany = (one, many, n, fields = {}) => {
    const texts = own(one);
    const form = Array.isArray(texts) ? texts[words.forms[n < 200 ? n : 100 + (n % 100)]] : n === 1 ? one : many;
    return filled(form, { n, ...fields });
  };

  const listed = (items) => {
    if (items.length < 3) return items.join(words.pair);
    return `${items.slice(0, -1).join(words.comma)}${words.last}${items[items.length - 1]}`;
  };

  return { say, sayMany, listed };
})();
