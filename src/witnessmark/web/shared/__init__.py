"""What all pages share: the frame, the style sheet, the case on the bench, its saves."""
