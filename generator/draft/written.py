"""A draft as the files of a device: YAML from a YAML writer, words escaped for Markdown, guesses beside what was said."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import yaml

from generator.draft.captions import Word, clock
from generator.draft.records import (
    Draft,
    DraftAction,
    DraftJoint,
    DraftPart,
    DraftStep,
    DraftTool,
    Guess,
    Link,
    Said,
    Sentence,
)

_WIDTH = 110
_LONGEST_LINE = 1900  # characters of a text on one line
_MARKDOWN = re.compile(r"([\\`*_\[\]<>#|~&])")
_LINE_START = re.compile(r"^(\d{1,9})([.)])|^([-+=:])")


class _Quoted(str):
    """A text that is written in quotes, as times are."""


class _Writer(yaml.SafeDumper):
    """Lists on one line, all else in blocks, nothing folded."""

    def ignore_aliases(self, data: Any) -> bool:
        return True


def _list(writer: _Writer, data: list[Any]) -> yaml.Node:
    is_plain = all(isinstance(each, str | int) for each in data)
    return writer.represent_sequence("tag:yaml.org,2002:seq", data, flow_style=is_plain)


def _in_quotes(writer: _Writer, data: _Quoted) -> yaml.Node:
    return writer.represent_scalar("tag:yaml.org,2002:str", str(data), style='"')


_Writer.add_representer(list, _list)
_Writer.add_representer(_Quoted, _in_quotes)


def device_files(draft: Draft, words: Sequence[Word], name: str, source: str, tools: Mapping[str, str]) -> dict[str, str]:
    """The files of the device's folder by their path in it.

    name: of the device, as nobody said it for sure; source: the name of the caption file; tools: by the id in the draft the
    id under which a tool stands in tools.yaml. A tool that is not there is named in a comment only.
    """
    files = {"device.yaml": _device(draft, name, source), "anatomy.yaml": _anatomy(draft)}
    for step in draft.steps:
        files[f"steps/{step.id}.md"] = _step(step, draft.links, words, tools)
    for part, said in draft.notes:
        files[f"notes/{part}.md"] = _note(said)
    return files


def tools_file(tools: Iterable[DraftTool], heading: str = "") -> str:
    """tools.yaml, or what is to be added to it: each tool with the words it was named in."""
    blocks = [f"# {heading}\n"] if heading else []
    for tool in tools:
        record: dict[str, Any] = {"name": tool.name, "type": tool.type}
        if tool.fits is not None and tool.fits[1]:
            record["fits"] = {"drive": tool.fits[0], "size": tool.fits[1]}
        elif tool.fits is not None:
            record["fits"] = {"drive": tool.fits[0]}
        blocks.append(
            comment(f"{'guess: a driver for the screws: ' if tool.is_guess else ''}{quote(tool.said)}")
            + _yaml({tool.id: record})
        )
    return "\n".join(blocks) if blocks else "{}\n"


def library_file(title: str, language: str) -> str:
    """library.yaml of a collection that begins with this draft."""
    return f"# Not said: what the collection is called, and by whom.\n{_yaml({'title': title, 'languages': [language]})}"


def spoken(words: Sequence[Word], sentence: Sentence, links: Sequence[Link]) -> str:
    """A sentence of a step in Markdown: the speaker's words, with a capital and a full stop, and links to what they name."""
    opened = {link.start: link for link in links}
    pieces: list[str] = []
    positions = list(sentence.words)
    kept = set(positions)
    index = 0
    while index < len(positions):
        at = positions[index]
        link = next((opened[start] for start in (at,) if start in opened), None)
        span = list(range(link.start, link.end)) if link is not None else []
        if link is not None and all(place in kept for place in span) and not any(words[place].end for place in span[:-1]):
            first = _after_articles(words, span)
            text = " ".join(words[place].text for place in span[first:])
            bare = text.rstrip(".,;:!?…")
            pieces.extend(_escaped(words[place].text) for place in span[:first])
            pieces.append(f"[{_escaped(bare)}]({link.to}){_escaped(text[len(bare) :])}")
            index += len(span)
            continue
        pieces.append(_escaped(words[at].text))
        index += 1
    text = " ".join(pieces)
    text = re.sub(r"[,;:–—-]+$", "", text)
    if not re.search(r"[.!?…]['\"”’)]*$", text):
        text += "."
    return _capital(text)


def comment(text: str, indent: int = 0) -> str:
    """A line of a YAML comment; nothing in it can end it."""
    plain = "".join(sign if sign.isprintable() else " " for sign in text)
    return f"{' ' * indent}# {plain}\n"


def quote(said: Said) -> str:
    """Time and words, as the author sees them."""
    return f'{clock(said.at)} "{said.words}"'


# --- device.yaml, anatomy.yaml ---


def _device(draft: Draft, name: str, source: str) -> str:
    text = comment(
        f"Drafted from {source}. Where it says guess, it was not said: the words it follows from stand beside it."
    )
    text += comment("Name and maker are for you to fill in: the name is that of the caption file.")
    text += _yaml({"name": name})
    if draft.kind and draft.kind_said is not None:
        text += comment(f"guess: {quote(draft.kind_said)}") + _yaml({"kind": draft.kind})
    if draft.faces:
        text += comment("The device is turned over in the film; which side is which was not said.")
        text += _yaml({"faces": list(draft.faces)})
    cell = next((part for part in draft.parts if part.is_cell), None)
    if draft.is_mains or cell is not None:
        text += comment("guess: there is a plug for the mains, or a battery, because they are spoken of")
        text += _yaml({"power": "both" if draft.is_mains and cell else "mains" if draft.is_mains else "cell"})
    text += comment('video: {address: "https://...", length: "m:ss"}   the captions do not say where the film is')
    text += "\norder:\n" + "".join(f"  - {step.id}\n" for step in draft.steps) if draft.steps else "\norder: []\n"
    if draft.loose:
        text += "\n" + comment("Said before the first step:")
        text += "".join(comment(f"  {quote(said)}") for said in draft.loose)
    return text


def _anatomy(draft: Draft) -> str:
    text = _yaml({"base": draft.base.id}) + "\nparts:\n"
    text += _part(draft.base, is_base=True)
    for part in draft.parts:
        text += "\n" + _part(part)
    if draft.joints:
        text += "\njoints:\n" + "\n".join(_joint(joint, draft.base) for joint in draft.joints)
    return text


def _part(part: DraftPart, is_base: bool = False) -> str:
    text = ""
    if is_base:
        text += comment("not said: what all else is mounted on; the format asks for it", 2)
    if part.said is not None:
        text += comment(quote(part.said), 2)
    text += _guesses(part.guesses) + _fronts(part.under, part.set_aside, "under")
    if part.is_cell:
        text += comment("not said: cell: {chemistry: ..., volts: ..., watt-hours: ...}", 2)
    record: dict[str, Any] = {"name": part.name}
    if part.face:
        record["face"] = part.face
    if part.under:
        record["under"] = [other for other, _ in part.under]
    return text + textwrap.indent(_yaml({part.id: record}), "  ")


def _joint(joint: DraftJoint, base: DraftPart) -> str:
    text = comment(quote(joint.said), 2) + _guesses(joint.guesses) + _fronts(joint.behind, joint.set_aside, "behind")
    unsaid = [f"what it joins the first to ({base.id} stands for it)"]
    if joint.kind == "screws":
        unsaid += ["how many"] * (joint.count is None) + ["their drive"] * (joint.drive is None) + ["their lengths"]
    text += comment(f"not said: {', '.join(unsaid)}", 2)
    record: dict[str, Any] = {"kind": joint.kind, "name": joint.name, "joins": list(joint.joins)}
    if joint.behind:
        record["behind"] = [other for other, _ in joint.behind]
    if joint.face:
        record["face"] = joint.face
    if joint.drive is not None:
        record["drive"] = " ".join(word for word in joint.drive if word)
    if joint.count is not None:
        record["count"] = joint.count
    if joint.softens:
        record["softens"] = joint.softens
    return text + textwrap.indent(_yaml({joint.id: record}), "  ")


def _guesses(guesses: Iterable[Guess]) -> str:
    return "".join(comment(f"guess: {guess.about}: {quote(guess.said)}", 2) for guess in guesses)


def _fronts(fits: Iterable[tuple[str, Said]], aside: Iterable[tuple[str, Said]], key: str) -> str:
    text = "".join(comment(f"guess: {key} {other}: {quote(said)}", 2) for other, said in fits)
    against = "said, but the order of the film does not allow it"
    return text + "".join(comment(f"{key}: {other}   {against}: {quote(said)}", 2) for other, said in aside)


# --- steps and notes ---


def _step(step: DraftStep, links: Sequence[Link], words: Sequence[Word], tools: Mapping[str, str]) -> str:
    start, end = clock(step.start), clock(step.end)
    front = _yaml({"title": step.title, "video": _Quoted(start if start == end else f"{start}-{end}")}) + "work:\n"
    for action in step.actions:
        front += _action(action, tools)
    short = [said for said in step.cautions if len(said.words) <= _LONGEST_LINE]
    if short:
        front += "cautions:\n"
        for said in short:
            front += comment(f"{clock(said.at)}; how grave it is was not said", 2)
            front += _item({"level": "caution", "text": said.words})
    remarks = [*step.remarks, *(said for said in step.cautions if said not in short)]
    if remarks:
        front += comment("Also said here:") + "".join(comment(f"  {quote(said)}") for said in remarks)
    known = [link for link in links if not link.to.startswith("tool:") or link.to.removeprefix("tool:") in tools]
    known = [
        Link(link.start, link.end, f"tool:{tools[link.to[5:]]}") if link.to.startswith("tool:") else link for link in known
    ]
    body = " ".join(spoken(words, sentence, known) for sentence in step.sentences)
    return f"---\n{front}---\n{_wrapped(body)}"


def _action(action: DraftAction, tools: Mapping[str, str]) -> str:
    text = comment(
        ("guess: undone by the same pull, because it was softened before: " if action.is_implied else "")
        + quote(action.said),
        2,
    )
    record: dict[str, Any] = {action.verb: action.target}
    named = [tools[tool] for tool in action.tools if tool in tools]
    if named:
        record["with"] = list(dict.fromkeys(named)) if len(set(named)) > 1 else named[0]
    missing = [tool for tool in action.tools if tool not in tools]
    if missing:
        text += comment(f"with: {', '.join(missing)}   named in the film, not yet in tools.yaml", 2)
    if action.lasts:
        record["for"] = action.lasts
    if action.degrees is not None:
        record["to"] = f"{action.degrees} °C"
    if action.proves:
        record["proves"] = action.proves
    return text + _item(record)


def _note(said: Sequence[Said]) -> str:
    return "\n".join(_wrapped(f"{clock(each.at)}: {_escaped(each.words)}") for each in said)


# --- text ---


def _yaml(value: Any) -> str:
    text = yaml.dump(value, Dumper=_Writer, allow_unicode=True, sort_keys=False, width=1 << 20)
    assert isinstance(text, str)
    return text


def _item(record: Mapping[str, Any]) -> str:
    return textwrap.indent("- " + textwrap.indent(_yaml(dict(record)), "  ").lstrip(), "  ")


def _escaped(text: str) -> str:
    return _MARKDOWN.sub(r"\\\1", text)


def _wrapped(text: str) -> str:
    """A paragraph in lines that none reads as a list, a heading or a rule."""
    lines = textwrap.wrap(text, _WIDTH, break_long_words=False, break_on_hyphens=False)
    return "".join(f"{_LINE_START.sub(_start_escaped, line)}\n" for line in lines)


def _start_escaped(match: re.Match[str]) -> str:
    return f"{match[1]}\\{match[2]}" if match[1] else f"\\{match[3]}"


def _after_articles(words: Sequence[Word], span: Sequence[int]) -> int:
    """How many words of a link are articles, which stay in front of it."""
    count = 0
    articles = frozenset(
        [
            "the",
            "a",
            "an",
            "this",
            "that",
            "these",
            "those",
            "my",
            "your",
            "our",
            "both",
            "all",
            "any",
            "some",
            "der",
            "die",
            "das",
            "den",
            "dem",
            "des",
            "ein",
            "eine",
            "einen",
            "einem",
            "einer",
            "eines",
            "diese",
            "dieser",
            "dieses",
            "diesen",
            "diesem",
            "beide",
            "alle",
        ]
    )
    while count < len(span) - 1 and words[span[count]].norm in articles:
        count += 1
    return count


def _capital(text: str) -> str:
    """With a capital at its start, which may stand inside a link."""
    at = next((index for index, sign in enumerate(text) if sign.isalpha()), 0)
    return text[:at] + text[at : at + 1].upper() + text[at + 1 :] if at <= 2 else text
