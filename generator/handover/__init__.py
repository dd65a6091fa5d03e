"""One thing to hand over: a device's finished pages as a folder, a page, a book or a document to print."""
