"""Holds topologies/case.schema.json equal to the reader: the entries of the format's page and thousands of mutations are
judged by Debian's python3-jsonschema and by the reader, and must be judged alike.

The reader judges in two steps. `shape` is what a schema can see; here both must agree. `whole` is everything, with
readings that are none and undos of nothing, which no schema sees: what is accepted there must have the shape.

Call: equal.py JUDGE_CASES PROJECT"""

import json
import pathlib
import re
import subprocess
import sys

import jsonschema

PROJECT = pathlib.Path(sys.argv[2])
sys.path.insert(0, str(PROJECT / "tests" / "network" / "schema"))
import mutations  # noqa: E402  (the mutations of values are the same for every format)

WORDS = ["2026-03-02T09:14:00Z", "2026-13-02T09:14:00Z", "2026-03-32T09:14:00Z", "2026-03-02T24:14:00Z", "2026-03-02T09:60:00Z",
         "2026-03-02T09:14:00", "2026-03-02", "12.3 V", "OL", "lamp dim", "twelve", "whichwire.case.v2", "x" * 200, "x" * 201,
         "x" * 2000, "x" * 2001, "a\nb"]
NUMBERS = [-1, 0, 0.5, 1, 1.5, 7, 1000000, 1000001, 60, 60.1, 1e9]
LISTS = [[], ["x"], ["x"] * 100, ["x"] * 101, [1], ["x" * 2001]]


def words_of(schema):
    """Every word that the schema allows somewhere, so that one too many in the schema is noticed."""
    if isinstance(schema, dict):
        yield from schema.get("enum", [])
        if "const" in schema:
            yield schema["const"]
        for value in schema.values():
            yield from words_of(value)
    elif isinstance(schema, list):
        for value in schema:
            yield from words_of(value)


def of_document(document):
    """Every place dropped, renamed, given a wrong type, and every word and number of our ranges and just outside."""
    for path, way in mutations.places(document).items():
        if not way:
            yield from mutations.of_value(document, path, False)
            continue
        value = document
        for key in way:
            value = value[key]
        news = list(mutations.of_value(value, path, False))
        news += WORDS if isinstance(value, str) else NUMBERS if isinstance(value, (int, float)) else []
        news += LISTS if isinstance(value, list) else []
        for new in news:
            yield mutations.changed(document, way, mutations.put(new))
        yield mutations.changed(document, way, mutations.drop)
        if isinstance(way[-1], str):
            yield mutations.changed(document, way, mutations.rename(way[-1] + "_"))


def main(judge):
    schemas = {name: json.loads((PROJECT / "topologies" / f"{name}.schema.json").read_text())
               for name in ("case", "network", "scan")}
    schema = schemas["case"]
    jsonschema.Draft202012Validator.check_schema(schema)
    store = {one["$id"]: one for one in schemas.values()}
    validator = jsonschema.Draft202012Validator(schema, resolver=jsonschema.RefResolver("", schema, store=store))
    WORDS.extend(words_of(schema))
    page = (PROJECT / "topologies" / "CASE-FORMAT.md").read_text()
    shipped = [json.loads(line) for line in re.search(r"```jsonl\n(.*?)```", page, re.S).group(1).splitlines()]
    start = json.dumps(shipped[0])
    documents = list(shipped)
    for document in shipped:
        documents += of_document(document)
    lines = "".join(json.dumps(document) + "\n" for document in documents)
    done = subprocess.run([judge, start], input=lines, capture_output=True, text=True, check=True)
    verdicts = [line.split() for line in done.stdout.splitlines()]
    assert len(verdicts) == len(documents)
    counts = {"both accept": 0, "of these not whole": 0, "both refuse": 0}
    wrong = []
    for document, (shape, whole) in zip(documents, verdicts):
        valid = validator.is_valid(document)
        # That February has no 30th the schema does not know.
        if valid != (shape == "shape") or (whole == "whole" and not valid):
            wrong.append(f"schema {valid}, reader {shape} {whole}: {json.dumps(document)[:1000]}")
        counts["both accept" if valid else "both refuse"] += 1
        counts["of these not whole"] += valid and whole != "whole"
    print(counts)
    # The test must not pass because it looked at nothing.
    if len(shipped) < 9 or counts["both accept"] < 200 or counts["both refuse"] < 300:
        wrong.append("too few entries were judged")
    for line in wrong[:10]:
        print("NOT ALIKE:", line)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
