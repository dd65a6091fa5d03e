"""Limits for the language of instructions."""

from __future__ import annotations

WORDS_PER_SENTENCE = 20
"""Words in a procedural sentence at most. Source: ASD-STE100 rule 5.1 (rule wording read in public summaries; verified)."""

INSTRUCTIONS_PER_SENTENCE = 1
"""Unless they are done at the same time. Source: ASD-STE100 rule 5.2 (rule wording read in public summaries; verified)."""
