"""The moving picture: a run of steps as one SVG in which every part leaves in its turn, and a still frame of every step.

The picture moves by CSS alone. What works where (tried in Chromium, from disk): opened by itself or through <object> or
<iframe>, the checkbox in it stops and starts it. In an <img> it moves, but nothing in an image can be clicked, so that a
page that shows it so owes its reader another way to stop it. Everywhere a reader who asked for less motion sees the
finished stack, still, and the colours follow the reader's light or dark.
"""
