"""The command line: reads arguments, calls the four verbs, prints what they return."""
