"""Couples the domains: Build → physics inputs → Evaluation with uncertainty. One file a domain, and `couple`."""
