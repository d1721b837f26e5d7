"""How strongly it speaks, why, and on which assumptions."""
