"""Every revision: who, when, what; two compared; what was written beside each other."""
