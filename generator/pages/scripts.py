"""The script files of a page, by their paths in the site, and data put into script files."""

from __future__ import annotations

import json
import re

from generator.languages import ENGLISH, form_for, forms_of, language, list_of
from generator.pages.theme import Theme

SAY = "scripts/say.js"
"""Words for all other scripts, in the language of the page."""

WORDS = "words.js"
"""What `say.js` says in a language other than English; beside the pages of that language."""

READING = ("scripts/kept.js", "scripts/leaves.js", "scripts/ticks.js", "scripts/awake.js")
"""What a page of steps runs: going on by keys, ticking off, keeping the screen on."""

CHOOSING = ("scripts/routes.js", "scripts/runs.js", "scripts/chooser.js")
SEVERAL_PARTS = ("scripts/routes.js", "scripts/runs.js", "scripts/several.js", *READING)
FINDING = ("scripts/vendor/minisearch.js", "scripts/find.js")


FORMS = 200
"""Counts for which the plural form is written out; beyond, forms go round by the hundred, as they do in every language."""

_SAID = re.compile(r'\bsay(?:Many)?\(\s*"((?:[^"\\]|\\.)*)"')


def with_words(scripts: tuple[str, ...]) -> tuple[str, ...]:
    """The scripts of a page with what they say things by, if there are any."""
    if not scripts:
        return ()
    return (*([] if language() == ENGLISH else [WORDS]), SAY, *scripts)


def texts_said(theme: Theme) -> tuple[str, ...]:
    """The texts that the scripts of a theme say, each once, in the order of the files."""
    scripts = [data for name, data in theme.files if name.endswith(".js") and "/vendor/" not in name]
    sources = [data if isinstance(data, str) else data.decode("utf-8") for data in scripts]
    return tuple(dict.fromkeys(json.loads(f'"{text}"') for source in sources for text in _SAID.findall(source)))


def words_script(theme: Theme) -> str:
    """The script file of the words of the language in force."""
    said = {text: forms_of(text) for text in texts_said(theme)}
    first, pair, last = "\0", list_of(["\0", "\0"]), list_of(["\0", "\0", "\0"])
    comma, end = last.split(first)[1:3]
    return data_script(
        "partwayWords",
        {
            "texts": {text: forms[0] if len(forms) == 1 else forms for text, forms in said.items() if forms},
            "forms": [form_for(count) for count in range(FORMS)],
            "comma": comma,
            "pair": pair.split(first)[1],
            "last": end,
        },
    )


def data_script(name: str, data: object) -> str:
    """A script that does nothing but give `data` a global name; nothing in it can end the element it might be put in.

    The separators U+2028 and U+2029 are written out too, which older readers of scripts take for ends of lines.

    >>> data_script("parts", {"a": "</script>"})
    'var parts = {"a":"\\\\u003c/script>"};\\n'
    """
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    for character in "<\u2028\u2029":
        text = text.replace(character, f"\\u{ord(character):04x}")
    return f"var {name} = {text};\n"
