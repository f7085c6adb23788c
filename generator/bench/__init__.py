"""From a family's records to the plain data that analysis works on."""

from generator.bench.bench import Bench
from generator.bench.complaint import Complaint

__all__ = ["Bench", "Complaint"]
