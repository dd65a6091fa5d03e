"""Scores as one JSON document: everything in them, exact decimals as strings."""

from __future__ import annotations

import json
from decimal import Decimal
from typing import Any

from generator.indices.checks import Check
from generator.indices.differences import Difference, Moved
from generator.indices.motion_times import LEFT_OUT, handling_of, seconds_of
from generator.indices.own_measure import Effort
from generator.indices.scores import Scores
from generator.indices.workings import Basis, Cell, Chosen, Criterion, Effect, Index, Line, Points, Rung
from generator.orders.guide import Guide, minutes
from generator.orders.routes import Route, best_route

VERSION = 1

Document = dict[str, Any]


def scores_as_json(
    guide: Guide, scores: Scores, motion_times: bool, change: str | None = None, told: Difference | None = None
) -> str:
    """One document; sums and products to four decimals and scores to two, as strings, points and steps as numbers.

    change: the change of the design under which all this holds; told: what it does to the index.
    """
    document: Document = {
        "version": VERSION,
        "device": guide.id,
        "kind": guide.device.kind,
        "index": _index(scores.index) if scores.index else None,
        "no_index": scores.no_index,
        "checks": [_check(check) for check in scores.checks],
        "efforts": [_effort(effort) for effort in scores.efforts],
    }
    if change is not None:
        document["if"] = {"change": change, "moved": [_moved(moved) for moved in told.moved] if told else []}
        document["if"]["before"] = _sum(told.before) if told else None
        document["if"]["after"] = _sum(told.after) if told else None
    if motion_times:
        document["handling"] = [_handling(guide, effort) for effort in scores.efforts if effort.is_reached]
        document["handling_leaves_out"] = LEFT_OUT
    return json.dumps(document, ensure_ascii=False, indent=2) + "\n"


def _index(index: Index) -> Document:
    return {
        "act": index.act,
        "name": index.name,
        "text": index.version,
        "applies": index.applies,
        "statement": index.statement,
        "scale": list(index.scale),
        "ladder": [_rung(rung) for rung in index.ladder],
        "possible": index.low is not None and not index.outside,
        "low": _exact(index.low, 4),
        "high": _exact(index.high, 4),
        "from_guide": [_exact(value, 4) for value in index.from_guide] if index.from_guide else None,
        "classes": list(index.classes),
        "classes_exact": index.are_classes_exact,
        "within_rounding_of": list(index.within_rounding_of),
        "outside": list(index.outside),
        "withheld": index.withheld,
        "unknown": [
            {
                "what": entry.fact.words,
                "key": entry.fact.key,
                "points": list(entry.fact.points),
                "width": _exact(entry.width, 4),
            }
            for entry in index.widths
        ],
        "criteria": [_criterion(criterion) for criterion in index.criteria],
        "readings": [_chosen(taken) for taken in index.chosen],
        "other_readings": [_effect(effect) for effect in index.effects],
        "notes": list(index.notes),
        "rules": [_basis(basis) for basis in index.bases],
    }


def _sum(index: Index) -> Document:
    return {"low": _exact(index.low, 4), "high": _exact(index.high, 4), "classes": list(index.classes)}


def _moved(moved: Moved) -> Document:
    cell = moved.after or moved.before
    assert cell is not None  # a pair has at least one side
    return {
        "criterion": cell.criterion,
        "code": cell.code,
        "before": _figures(moved.before),
        "after": _figures(moved.after),
    }


def _figures(cell: Cell | None) -> Document | None:
    return {"steps": list(cell.steps), "low": cell.low, "high": cell.high} if cell else None


def _rung(rung: Rung) -> Document:
    return {"class": rung.letter, "from": _exact(rung.bound, 2), "holds_bound": rung.holds_bound}


def _criterion(criterion: Criterion) -> Document:
    product = criterion.product
    return {
        "criterion": criterion.code,
        "name": criterion.name,
        "weight": _exact(criterion.weight, 2),
        "low": _exact(criterion.low, 2),
        "high": _exact(criterion.high, 2),
        "product": [_exact(value, 4) for value in product] if product else None,
        "rule": _basis(criterion.basis),
        "parts": [_cell(cell) for cell in criterion.cells],
    }


def _cell(cell: Cell) -> Document:
    return {
        "code": cell.code,
        "name": cell.name,
        "part": cell.part,
        "weight": _exact(cell.weight, 2),
        "share": _exact(cell.share, 4),
        "steps": list(cell.steps),
        "low": cell.low,
        "high": cell.high,
        "unknown": [fact.key for fact in cell.facts],
        "outside": list(cell.outside),
        "lines": [_line(line) for line in cell.lines],
        "beside": [{"what": beside.words, "low": beside.low, "high": beside.high} for beside in cell.beside],
        "notes": list(cell.notes),
    }


def _line(line: Line) -> Document:
    return {
        "what": line.words,
        "amounts": list(line.amounts),
        "counted": line.is_counted,
        "step": line.step,
        "rule": _basis(line.basis),
    }


def _basis(basis: Basis) -> Document:
    return {"act": basis.act, "clause": basis.clause, "says": basis.says, "source": basis.source, "tag": basis.tag}


def _chosen(taken: Chosen) -> Document:
    question = taken.question
    return {
        "name": question.name,
        "asks": question.asks,
        "taken": taken.option.value,
        "options": {option.value: option.words for option in question.options},
    }


def _effect(effect: Effect) -> Document:
    return {
        "name": effect.question.name,
        "value": effect.option.value,
        "low": _exact(effect.low, 4),
        "high": _exact(effect.high, 4),
        "classes": list(effect.classes),
    }


def _check(check: Check) -> Document:
    return {
        "name": check.name,
        "part": check.part,
        "answer": check.answer.value,
        "found": [{"answer": found.answer.value, "what": found.words, "step": found.step} for found in check.found],
        "not_known": list(check.not_known),
        "rule": _basis(check.basis),
    }


def _effort(effort: Effort) -> Document:
    return {
        "part": effort.part,
        "role": effort.role,
        "steps": effort.steps,
        "actions": effort.actions,
        "tool_changes": effort.tool_changes,
        "minutes": float(minutes(effort.seconds)) if effort.seconds is not None else None,
        "not_reusable": [{"joint": joint, "count": count} for joint, count in effort.not_reusable],
        "not_said": list(effort.unsaid),
    }


def _handling(guide: Guide, effort: Effort) -> Document:
    route = best_route(guide, (effort.part,), tells_others=False)
    handling = handling_of(guide, route.steps) if isinstance(route, Route) else ()
    return {
        "part": effort.part,
        "seconds": _exact(seconds_of(handling), 3),
        "motions": [
            {
                "motion": entry.motion.name,
                "times": entry.times,
                "tmu": str(entry.motion.tmu),
                "seconds": _exact(entry.seconds, 4),
                "source": entry.motion.source,
                "tag": entry.motion.tag,
            }
            for entry in handling
        ],
    }


def _exact(value: Points | None, places: int) -> str | None:
    return f"{Decimal(value):.{places}f}" if value is not None else None
