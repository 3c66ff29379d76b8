"""Heat, sun and moisture: transmittance, irradiance, rooms as a network, condensation, people. SI, time in seconds."""
