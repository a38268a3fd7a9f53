"""Labels as they are drawn and printed: symbols, stock, layouts, pages, files and queues.

Nothing here knows the shop: a label comes as its code and its words, and leaves as a page. What draws PDF,
bars or pictures is imported when the first label is made, never before.
"""
