"""Couples the domains: Build → physics inputs → Evaluation with uncertainty. A folder a domain."""
