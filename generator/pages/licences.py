"""Licences by their names: where the text of one stands.

Names are those of Creative Commons (creativecommons.org/licenses) and the identifiers of the SPDX licence list
(spdx.org/licenses), of which those are known here that guides and drawings are found under.
"""

from __future__ import annotations

import re

from generator.pages.addresses import is_web

SPDX = frozenset(
    {
        "0BSD", "AGPL-3.0-only", "AGPL-3.0-or-later", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "CERN-OHL-P-2.0",
        "CERN-OHL-S-2.0", "CERN-OHL-W-2.0", "EUPL-1.2", "GFDL-1.3-only", "GFDL-1.3-or-later", "GPL-2.0-only",
        "GPL-2.0-or-later", "GPL-3.0-only", "GPL-3.0-or-later", "ISC", "LAL-1.3", "LGPL-3.0-only", "LGPL-3.0-or-later",
        "MIT", "MPL-2.0", "OFL-1.1", "Unlicense",
    }
)  # fmt: skip

_COMMONS = re.compile(
    r"CC[ -]BY(?:[ -](NC))?(?:[ -](SA|ND))?[ -](1\.0|2\.0|2\.5|3\.0|4\.0)(?: International| Unported)?", re.IGNORECASE
)
_ZERO = re.compile(r"CC0(?:[ -]1\.0)?(?: Universal)?", re.IGNORECASE)


def licence_address(name: str) -> str | None:
    """Where the text of a licence stands; None for a name that is not known, or has no version.

    >>> licence_address("CC BY-SA 4.0"), licence_address("CC-BY-NC-ND-3.0")
    ('https://creativecommons.org/licenses/by-sa/4.0/', 'https://creativecommons.org/licenses/by-nc-nd/3.0/')
    >>> licence_address("CC0 1.0"), licence_address("MIT"), licence_address("ask me")
    ('https://creativecommons.org/publicdomain/zero/1.0/', 'https://spdx.org/licenses/MIT.html', None)
    """
    name = name.strip()
    commons = _COMMONS.fullmatch(name)
    if commons is not None:
        kind = "-".join(word.lower() for word in ("by", commons[1], commons[2]) if word)
        return f"https://creativecommons.org/licenses/{kind}/{commons[3]}/"
    if _ZERO.fullmatch(name):
        return "https://creativecommons.org/publicdomain/zero/1.0/"
    if name in SPDX:
        return f"https://spdx.org/licenses/{name}.html"
    return name if is_web(name) and not re.search(r"\s", name) else None
