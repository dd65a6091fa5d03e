"""Delegated Regulation (EU) 2023/2534: the repairability index of household tumble dryers, as far as its text carries."""
