"""Holds topologies/scan.schema.json equal to the reader: every scan of the tests and samples and thousands of mutations
are judged by Debian's python3-jsonschema and by the reader, and must be judged alike.

The reader judges in two steps. `shape` is what a schema can see; here both must agree. `whole` is everything, with
modules listed twice and mistyped codes, which no schema sees: what is accepted there must have the shape.

Call: equal.py JUDGE_SCANS PROJECT"""

import json
import pathlib
import re
import subprocess
import sys

import jsonschema

PROJECT = pathlib.Path(sys.argv[2])
sys.path.insert(0, str(PROJECT / "tests" / "network" / "schema"))
import mutations  # noqa: E402  (the mutations of values are the same for every format)

FULL = {
    "format": "whichwire.scan.v1", "unit": "V-1", "taken": "2026-03-02",
    "vehicle": {"make": "Hollin", "model": "Moor", "model_year": 2018, "variant": "base"}, "complaint": "no crank", "key": "run", "battery_volts": 12.5,
    "tool_has_own_battery": False,
    "modules": [{"module": "TCM", "answer": "yes", "codes": [
        {"code": "U0100-87", "state": "current", "status": "2F", "text": "no messages", "misses": "ECM", "volts": 9.5}]},
        {"module": "ECM", "answer": "no"}],
    "functions": [{"function": "crank", "works": False}],
}
WORDS = ["yes", "no", "refused", "not-fitted", "not-reachable", "not-polled", "not fitted", "current", "pending", "history",
         "not-tested", "unknown", "off", "accessory", "run", "start", "2", "2F", "2f", "0x2F", "0X2F", "0x", "2FF", "2G", "",
         "whichwire.scan.v1", "whichwire.scan.v2", "x" * 200, "x" * 201, "x" * 2000, "x" * 2001, "U0100", "a\nb", "2F\n"]
NUMBERS = [-0.1, 0, 0.0, 12, 1899, 1900, 1900.5, 2100, 2101, 59.9, 60, 60.1, 1e9]


def without_comments(text):
    keep = re.compile(r'("(?:\\.|[^"\\])*")|//[^\n]*|/\*.*?\*/', re.S)
    return keep.sub(lambda found: found.group(1) or "", text)


def of_document(document, thorough):
    """Every place dropped, renamed, given a wrong type, and every word and number of our ranges and just outside."""
    for path, way in mutations.places(document).items():
        if not way:
            yield from mutations.of_value(document, path, thorough)
            continue
        value = document
        for key in way:
            value = value[key]
        news = list(mutations.of_value(value, path, thorough))
        news += WORDS if isinstance(value, str) else NUMBERS if isinstance(value, (int, float)) else []
        for new in news:
            yield mutations.changed(document, way, mutations.put(new))
        yield mutations.changed(document, way, mutations.drop)
        if isinstance(way[-1], str):
            yield mutations.changed(document, way, mutations.rename(way[-1] + "_"))


def words_of(schema):
    """Every word that the schema allows somewhere, so that one too many in the schema is noticed."""
    if isinstance(schema, dict):
        yield from schema.get("enum", [])
        for value in schema.values():
            yield from words_of(value)
    elif isinstance(schema, list):
        for value in schema:
            yield from words_of(value)


def main(judge):
    schema = json.loads((PROJECT / "topologies" / "scan.schema.json").read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    WORDS.extend(words_of(schema))
    files = sorted((PROJECT / "tests" / "scan" / "layouts").glob("*.json")) + sorted(PROJECT.glob("samples/*/scan*.json"))
    shipped = [json.loads(without_comments(file.read_text())) for file in files]
    documents = shipped + [FULL, *of_document(FULL, True)]
    for document in shipped[::8]:
        documents += of_document(document, False)
    lines = "".join(json.dumps(document) + "\n" for document in documents)
    done = subprocess.run([judge], input=lines, capture_output=True, text=True, check=True)
    verdicts = [line.split() for line in done.stdout.splitlines()]
    assert len(verdicts) == len(documents)
    counts = {"files": len(files), "both accept": 0, "of these listed twice or the like": 0, "both refuse": 0}
    wrong = []
    for i, (document, (shape, whole)) in enumerate(zip(documents, verdicts)):
        valid = validator.is_valid(document)
        if i <= len(shipped) and whole != "whole":
            wrong.append(f"the reader refuses a shipped scan: {json.dumps(document)[:300]}")
        if valid != (shape == "shape") or (whole == "whole" and not valid):
            reason = "" if valid else next(validator.iter_errors(document)).message[:200]
            wrong.append(f"schema {valid} {reason}, reader {shape} {whole}: {json.dumps(document)[:1000]}")
        counts["both accept" if valid else "both refuse"] += 1
        counts["of these listed twice or the like"] += valid and whole != "whole"
    print(counts)
    # The test must not pass because it looked at nothing.
    if counts["files"] < 40 or counts["both accept"] < 300 or counts["both refuse"] < 300:
        wrong.append("too few scans were judged")
    for line in wrong[:10]:
        print("NOT ALIKE:", line)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
