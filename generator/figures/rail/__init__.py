"""The depth rail: a core sample beside each step, one layer a step, with the true depth of the part in hand."""
