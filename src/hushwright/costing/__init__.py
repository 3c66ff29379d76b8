"""Arithmetic of the workshop: money, purchase, labour, quote. Pure; knows no vehicle, document or screen."""
