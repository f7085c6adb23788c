"""Two builds of the same records compared byte by byte: `python -m tests.same_bytes`."""

ELSEWHERE = {"TZ": "Pacific/Kiritimati", "LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0", "PYTHONHASHSEED": "7"}
"Another time zone, language and order of sets."
