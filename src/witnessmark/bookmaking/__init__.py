"""Books made: begun from an example, filled from lists, and told what they know and do not."""
