"""The order map: what has to come out before what, as boxes joined by orthogonal lines, each box a link to its step."""
