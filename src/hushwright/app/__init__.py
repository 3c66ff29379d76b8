"""The workshop's screen: pages that call the four verbs."""
