"""A change as one page to send along: style and fonts inside, nothing fetched, nothing run."""

from __future__ import annotations

from generator.handover.single import policy_for, whole_sheet
from generator.pages.review import review_view
from generator.pages.theme import Theme, set_page, shared_files
from generator.review.changes import LibraryChange
from generator.review.sentences import summary_of


def review_sheet(change: LibraryChange, old: str, new: str, theme: Theme) -> str:
    """The page for the change from the state named `old` to the one named `new`."""
    style = whole_sheet(shared_files(theme))
    return set_page(theme, "review", review_view(change, old, new, summary_of(change), policy_for(style), style))
