"""file/html"""

from __future__ import annotations

from collections.abc import Iterator

from generator.rules.faults import HasFaults, faults_of
from generator.rules.finding import Finding, Mend
from generator.rules.wording import quoted
from generator.source.faults import RawHtml


def html(read: HasFaults) -> Iterator[Finding]:
    """HTML stands in the prose, where it is shown as text.

    Why: the reader sees the brackets and not what they were to do; tags are left out so that a guide can do no harm.
    Bad: `Lift the shade <b>slowly</b>.`
    Good: `Lift the shade **slowly**.`
    Silent when: the tag stands in code, or there is none.
    """
    for fault in faults_of(read, RawHtml):
        shown = "An HTML comment" if fault.tag == "comment" else f"The HTML tag {quoted(fault.tag)}"
        yield Finding(
            place=fault.place,
            message=f"{shown} would be shown to the reader as it stands.",
            mend=Mend("Write it in Markdown, or take it out."),
        )
