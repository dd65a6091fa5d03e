"""The script files of a page, by their paths in the site, and data put into script files."""

from __future__ import annotations

import json

READING = ("scripts/kept.js", "scripts/leaves.js", "scripts/ticks.js", "scripts/awake.js")
"""What a page of steps runs: going on by keys, ticking off, keeping the screen on."""

CHOOSING = ("scripts/routes.js", "scripts/runs.js", "scripts/chooser.js")
SEVERAL_PARTS = ("scripts/routes.js", "scripts/runs.js", "scripts/several.js", *READING)
FINDING = ("scripts/vendor/minisearch.js", "scripts/find.js")


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
