"""The outline of a document or an answer, made once, and the press that makes text of it."""
