"""Holds topologies/network.schema.json equal to the reader: every network file and thousands of mutations of each are
judged by Debian's python3-jsonschema and by the reader, and must be judged alike.

The reader judges in two steps. `shape` is what a schema can see: keys, types, ranges, words; here both must agree.
`whole` is everything, with ids, wiring and feeds, which no schema sees: what is accepted there must have the shape.

Call: equal.py JUDGE_NETWORKS TOPOLOGIES"""

import json
import pathlib
import random
import re
import subprocess
import sys

import jsonschema

import mutations


def without_comments(text):
    keep = re.compile(r'("(?:\\.|[^"\\])*")|//[^\n]*|/\*.*?\*/', re.S)
    return keep.sub(lambda found: found.group(1) or "", text)


def judged(judge, name, documents):
    lines = "".join(json.dumps(document) + "\n" for document in documents)
    done = subprocess.run([judge, str(name)], input=lines, capture_output=True, text=True, check=True)
    return [line.split() for line in done.stdout.splitlines()]


def main(judge, folder):
    schema = json.loads((folder / "network.schema.json").read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    thorough_paths = set()
    counts = {"files": 0, "both accept": 0, "of these with ids that lead nowhere or the like": 0, "both refuse": 0}
    wrong = []
    chance = random.Random(1)
    files = [file for file in sorted(folder.glob("*.json")) if not file.name.endswith(".schema.json")]
    for file in files:
        document = json.loads(without_comments(file.read_text()))
        small = mutations.pruned(document)
        documents = [document, small, *mutations.of_document(small, thorough_paths)]
        documents += mutations.some(document, 10, chance)
        verdicts = judged(judge, file, documents)
        assert len(verdicts) == len(documents)
        if verdicts[0] != ["shape", "whole"]:
            wrong.append(f"{file.name}: the reader refuses a shipped file")
        for mutated, (shape, whole) in zip(documents, verdicts):
            valid = validator.is_valid(mutated)
            if valid != (shape == "shape") or (whole == "whole" and not valid):
                reason = "" if valid else next(validator.iter_errors(mutated)).message[:200]
                wrong.append(f"{file.name}: schema {valid} {reason}, reader {shape} {whole}: {json.dumps(mutated)[:3000]}")
            counts["both accept" if valid else "both refuse"] += 1
            counts["of these with ids that lead nowhere or the like"] += valid and whole != "whole"
        counts["files"] += 1
    print(counts, "places mutated thoroughly:", len(thorough_paths))
    # The test must not pass because it looked at nothing.
    enough = counts["files"] >= 3 and counts["both accept"] > 1000 and counts["both refuse"] > 1000
    if not enough:
        wrong.append("too few networks were judged")
    for line in wrong[:10]:
        print("NOT ALIKE:", line)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], pathlib.Path(sys.argv[2])))
