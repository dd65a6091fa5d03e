"""caution/late"""

from __future__ import annotations

import re
from collections.abc import Iterator

from generator.orders.guide import Guide
from generator.rules.finding import Finding, Mend
from generator.rules.prose import instructions

_WARNS = re.compile(
    r"^(?:danger|warning|caution|attention|beware)\b\s*[:!.,-]?"
    r"|\b(?:be (?:very )?careful|take (?:great |good )?care|mind (?:your|the)|watch out|careful not to|beware of)\b",
    re.IGNORECASE,
)


def late(guide: Guide) -> Iterator[Finding]:
    """The text of a step warns after it has already told the reader to act.

    Why: whoever reads and works line by line meets the danger before the warning (IEC/IEEE 82079-1 wants it before).
    Bad: "Lift the shade off its posts. Be careful, its rim is sharp."
    Good: a caution in the step's `cautions`, which is shown before the text; or the warning as the first sentence.
    Silent when: no instruction comes before the warning.
    """
    for step in (*guide.steps, *guide.unused):
        has_begun = False
        for sentence in step.body.sentences if step.body else ():
            if has_begun and _WARNS.search(sentence.text):
                yield Finding(
                    place=sentence.place,
                    message="This warning comes too late: the reader has been told to act before it.",
                    mend=Mend("Put it into `cautions` of the step, or at the start of the text."),
                )
            has_begun = has_begun or bool(instructions(sentence.text))
