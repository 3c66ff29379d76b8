"""The build file: text to typed values with their lines, and back without loss."""
