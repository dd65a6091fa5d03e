"""Settles where random cases come from, before any test is read."""

from __future__ import annotations

from tests.wandering import settle

settle()
