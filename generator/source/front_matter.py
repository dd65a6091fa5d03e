"""A step file in its two halves: YAML between two lines of `---`, then Markdown."""

from __future__ import annotations

from dataclasses import dataclass

from generator.source.characters import with_plain_line_ends
from generator.source.faults import BrokenYaml
from generator.source.places import Place

_FENCE = "---"


@dataclass(frozen=True, slots=True)
class FrontMatter:
    """yaml and body are texts; yaml_line and body_line are the lines of the file they start in."""

    yaml: str
    yaml_line: int
    body: str
    body_line: int


def split_front_matter(text: str, file: str) -> FrontMatter | BrokenYaml:
    """Cut a step file at its two fences; a fault where one of them is not there.

    >>> split_front_matter("---\\ntitle: a\\n---\\nWords.\\n", "a.md")
    FrontMatter(yaml='title: a\\n', yaml_line=2, body='Words.\\n', body_line=4)
    """
    lines = with_plain_line_ends(text).split("\n")
    if lines[0].rstrip() != _FENCE:
        place = Place(file, 1, 1, 1, len(lines[0]) + 1)
        hint = "Start the file with a line ---, then title: and work:, then another line ---, then the words."
        return BrokenYaml(place, "The file does not start with its data.", hint)
    for number, line in enumerate(lines[1:], start=1):
        if line.rstrip() == _FENCE:
            data = "".join(f"{each}\n" for each in lines[1:number])
            return FrontMatter(data, 2, "\n".join(lines[number + 1 :]), number + 2)
    hint = "Write a line --- between the data and the words."
    return BrokenYaml(Place(file, 1, 1, 1, len(lines[0]) + 1), "The data that starts here is not closed.", hint)
