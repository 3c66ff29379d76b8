"""Laws in SI from papers and standards; knows no vehicle, document or screen."""
