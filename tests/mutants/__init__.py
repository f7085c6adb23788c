"""Small faults put into the analysis one at a time: tests that pass with one in place say too little."""
