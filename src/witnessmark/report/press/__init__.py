"""The press: an outline becomes the pages of a PDF, or plain text."""
