"""Options and goals to documents, tried through the four verbs."""
