"""Published facts that rules look up, each with its source and how well it is known.

tag: `verified` (read in a reproduction of the source), `memory` (recalled, the source itself was not read),
`common practice` (no public source). The source named is where the figure was read or where it should stand.
"""
