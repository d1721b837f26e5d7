"""Every document as it would be printed; issues and supplements; the case as a folder."""
