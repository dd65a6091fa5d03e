"""ref/loose-file"""

from __future__ import annotations

from collections.abc import Iterator

from generator.orders.accounts import pages_of
from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.pictures import FOLDER, pictures_of
from generator.rules.prose import all_prose_of
from generator.rules.wording import quoted

PAGES = frozenset({"index.html", "guide.html", "workings.html", "several.html"})
"""Pages that every device has, or may have."""


def loose_file(guide: Guide) -> Iterator[Finding]:
    """The text links to a file that does not go into the site.

    Why: the reader would follow a link that leads nowhere. A site has the pages of its guides and the photos they show, and
    nothing else from the folder: what is published is what was checked.
    Bad: `See [the list](notes.txt).`
    Good: the list as text, a link to a part or step (`[the list](step:sort-screws)`), or an address on the web.
    Silent when: the link leads to a page of the guide, or to a photo that the guide shows.
    """
    shown = {f"{FOLDER}{picture.path}" for picture in pictures_of(guide)}
    there = PAGES | shown | {f"to-{part}.html" for part in pages_of(guide)}
    for prose in all_prose_of(guide):
        for link in prose.files:
            if link.path not in there:
                yield Finding(
                    place=link.place,
                    message=f"The link to {quoted(link.path)} leads nowhere: that file does not go into the site.",
                    mend=Mend("Write what it says as text, link to a part or a step, or to an address on the web."),
                )
