"""Where to look, in walking order; sheets and letters to print or send."""
