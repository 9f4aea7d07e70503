"""Reads a picture as XML and prints what is in it as JSON; complains of anything that a picture has no use for."""
import json
import sys
import unicodedata
import xml.etree.ElementTree as tree

SVG = "{http://www.w3.org/2000/svg}"
ELEMENTS = {"svg", "title", "desc", "style", "defs", "pattern", "rect", "line", "polyline", "circle", "text", "g"}
ATTRIBUTES = {"class", "role", "aria-labelledby", "viewBox", "width", "height", "id", "points", "x", "y", "x1", "y1",
              "x2", "y2", "cx", "cy", "r", "rx", "patternUnits", "patternTransform", "transform", "data-part", "data-check"}


def harmful(text):
    """Control and format characters: none may stand raw in a file that people open."""
    return [hex(ord(letter)) for letter in text if letter != "\n" and unicodedata.category(letter) in ("Cc", "Cf", "Co", "Cs")]


def parts(root):
    found = {}
    for group in root.iter(SVG + "g"):
        name = group.get("data-part")
        if name is None:
            continue
        part = found.setdefault(name, {"classes": [], "titles": [], "texts": [], "checks": ""})
        part["classes"] += group.get("class").split()
        part["checks"] = group.get("data-check") or part["checks"]
        part["titles"] += [title.text for title in group.findall(SVG + "title")]
        part["texts"] += [text.text for text in group.findall(SVG + "text")]
        part["classes"] += [c for shape in group for c in (shape.get("class") or "").split()]
    return found


def judge(raw):
    root = tree.fromstring(raw.encode())
    complaints = []
    if root.tag != SVG + "svg":
        complaints.append("the root is " + root.tag)
    for element in root.iter():
        if element.tag.removeprefix(SVG) not in ELEMENTS:
            complaints.append("element " + element.tag)
        complaints += ["attribute " + name for name in element.attrib if name not in ATTRIBUTES]
    complaints += ["character " + character for character in harmful(raw)]
    for needed in ("title", "desc"):
        if not (root.find(SVG + needed) is not None and root.find(SVG + needed).text):
            complaints.append("no " + needed)
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    if len(ids) != len(set(ids)):
        complaints.append("an id stands twice")
    return {"complaints": complaints, "parts": parts(root), "description": root.find(SVG + "desc").text,
            "texts": [text.text for text in root.iter(SVG + "text")],
            "sides": {side.get("class"): parts(side) for side in root.findall(SVG + "g") if side.get("class") in ("first", "second")}}


def main():
    print(json.dumps(judge(open(sys.argv[1], encoding="utf-8").read())))


if __name__ == "__main__":
    main()
