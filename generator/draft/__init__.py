"""From the captions of a film to a first draft of a guide: what was said to be done becomes steps, all else stays a note.

`decoding` makes text of bytes, `captions` words with their times, `lexicon` reads the lists of words that a language is
read by, `phrases` and `clauses` cut the words, `acts` asks each clause for what it asks for, `drafting` and `assembling`
make steps, parts and joints of it, `written` and `summary` make files. Nothing is added that was not said; what is guessed
carries the words it was guessed from.
"""
