"""Delegated Regulation (EU) 2023/1669: the repairability index of smartphones and slate tablets."""
