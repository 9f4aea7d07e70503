"""Judges files by their kind: no text of a file may be taken for anything but text. Prints what is wrong, by file."""
import json
import pathlib
import subprocess
import sys

import html5lib

import html_page
import svg

WRITTEN = {"html", "head", "body", "h1", "h2", "p", "ul", "ol", "li", "strong", "blockquote"}


def markdown(raw):
    """By CommonMark's own program, which is asked to leave raw HTML in."""
    made = subprocess.run(["cmark", "--unsafe"], input=raw.encode(), capture_output=True, check=True).stdout.decode()
    root = html5lib.parse(made, namespaceHTMLElements=False)
    return [f"element {e.tag}" for e in root.iter() if e.tag not in WRITTEN] + [f"attribute {a}" for e in root.iter() for a in e.attrib]


def complaints(path):
    raw = path.read_bytes().decode()  # fails where it is not UTF-8
    found = ["character " + character for character in svg.harmful(raw)]
    if path.suffix == ".html":
        found += html_page.judge(raw)["complaints"]
    elif path.suffix == ".svg":
        found += svg.judge(raw)["complaints"]
    elif path.suffix == ".md":
        found += markdown(raw)
    elif path.suffix == ".json":
        json.loads(raw)
    return found


paths = [path for path in sorted(pathlib.Path(sys.argv[1]).iterdir())]
found = {path.name: complaints(path) for path in paths}
print(json.dumps({"judged": len(paths), "complaints": {name: some for name, some in found.items() if some}}))
