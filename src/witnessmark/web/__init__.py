"""The workshop: the whole job in a browser, on this machine alone. One folder a page.

A page shows what the rooms below have computed, and draws nothing of its own. Which pages there
are and who may see them is one table: `routes.ROUTES`.
"""
