"""Words shown to readers, in the language of the page that is being made.

    say("Lift the {part}.", part=name)                        a sentence; names in braces are filled in
    say_as("order map", "waits for", ...)                     the same, where one English text has two meanings
    say_many("{n}~screw", "{n}~screws", count)                by the language's own plural forms; {n} is the count
    later("supply plug")                                      in a table: kept as it is, found by the collector
    say(TABLE[key])                                           what was kept for later

The English text is the key. Catalogues are `catalogues/<language>/LC_MESSAGES/partway.po`, read with Babel; a text that a
catalogue lacks is said in English. After adding or changing a text run

    PARTWAY_ACCEPT=1 python -m pytest tests/languages/test_catalogues.py

which collects all texts anew into `catalogues/partway.pot` and every `.po`, then translate what is new there. The same test
fails while a text is missing, left over, marked fuzzy or has other fields than its original.

Rules for texts: whole sentences, never pieces that are joined; one text for one meaning; a name of a part, joint or tool
stands where a language with cases can leave it as it is ("Part: {part}" rather than "beneath the {part}"). A tilde in a
text is a space at which no line breaks. Fields are plain
values: what stands in them is never read as a text or a format. Escaping stays where it was, with the template or the
drawing; a field that is safe HTML already (`Markup`) makes the sentence safe HTML and escapes the rest of it.

The language in force is the one ambient value of this program: `with speaking("de"):` holds around the making of one
language's pages, `language()` asks for it. It is ambient because it decides the words of every function that words
something and the work of none; handing it down would put the same argument into several hundred signatures. So nothing
that words may be kept beyond one `speaking`: a cache of worded results has `language()` in its key. Outside of any
`speaking` the language is English, which is what commands and findings are written in.

Numbers, lists and dates follow the language through `in_digits`, `list_of` and `day`; `pages.typography` uses them.
"""

from generator.languages.catalogues import Catalogue, read_catalogue, shipped
from generator.languages.locales import ENGLISH, direction, fallbacks, name_of
from generator.languages.speaking import (
    day,
    decimal_mark,
    form_for,
    forms_of,
    in_digits,
    language,
    later,
    list_of,
    say,
    say_as,
    say_many,
    speaking,
)

__all__ = [
    "ENGLISH",
    "Catalogue",
    "day",
    "decimal_mark",
    "direction",
    "fallbacks",
    "form_for",
    "forms_of",
    "in_digits",
    "language",
    "later",
    "list_of",
    "name_of",
    "read_catalogue",
    "say",
    "say_as",
    "say_many",
    "shipped",
    "speaking",
]
