"""Records with sources: materials, fittings, bodies, spectra, criteria and limits."""
