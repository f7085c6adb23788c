"""Findings as text, annotations and JSON. The escapes are those that a forge undoes: %, carriage return and line feed
everywhere, colon and comma in a property too (the published format of such annotations; from memory)."""

import json
from pathlib import Path

from generator.records.finding import Finding
from generator.records.report import as_annotations, as_json, as_text, summary

ODD = Finding(Path("content/a,b:c.yaml"), 3, 7, "100 % of\nit\u202e is wrong.", "Mend it.", "warning")
PLAIN = Finding(Path("content/a.yaml"), 12, 9, "'feed-gaer' is no part.", "Did you mean 'feed-gear'?", rule="names-exist")


def test_text_has_one_line_for_each_finding_with_its_mend() -> None:
    assert as_text([PLAIN, ODD]).splitlines() == [
        "content/a.yaml:12:9: 'feed-gaer' is no part. Did you mean 'feed-gear'? [names-exist]",
        "content/a,b:c.yaml:3:7: warning: 100 % of\\nit\\u202e is wrong. Mend it.",
    ]


def test_annotations_escape_what_would_end_them() -> None:
    assert as_annotations([PLAIN, ODD]).splitlines() == [
        "::error file=content/a.yaml,line=12,col=9,title=names-exist::'feed-gaer' is no part. Did you mean 'feed-gear'?",
        "::warning file=content/a%2Cb%3Ac.yaml,line=3,col=7::100 %25 of\\nit\\u202e is wrong. Mend it.",
    ]


def test_json_has_the_keys_that_other_tools_rest_on() -> None:
    assert json.loads(as_json([PLAIN])) == {
        "problems": [
            {
                "path": "content/a.yaml",
                "line": 12,
                "column": 9,
                "message": "'feed-gaer' is no part.",
                "hint": "Did you mean 'feed-gear'?",
                "level": "error",
                "rule": "names-exist",
            }
        ]
    }
    assert json.loads(as_json([])) == {"problems": []}


def test_the_summary_counts_both_levels() -> None:
    assert summary([PLAIN, ODD, ODD], 1) == "1 record: 1 problem and 2 warnings."
    assert summary([ODD], 2) == "2 records: 1 warning."
