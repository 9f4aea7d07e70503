"""Reads pages as a browser does, with html5lib and every parse error counted, and prints what is in each as JSON;
complains of anything that a page has no use for, of a policy that does not name its own style and script, of links
that lead nowhere."""
import base64
import hashlib
import json
import re
import sys

import html5lib

import svg

HTML = "{http://www.w3.org/1999/xhtml}"
ELEMENTS = {"html", "head", "meta", "title", "style", "body", "header", "main", "section", "figure", "div", "details", "summary",
            "h1", "h2", "h3", "p", "b", "ul", "ol", "li", "dl", "dt", "dd", "table", "thead", "tbody", "tr", "th", "td", "a",
            "span", "q", "button", "script"}
ATTRIBUTES = {"lang", "charset", "http-equiv", "content", "name", "class", "id", "type", "hidden", "open", "role", "aria-label",
              "tabindex", "scope", "data-heading", "href"}
SVG_ATTRIBUTES = svg.ATTRIBUTES | {"preserveAspectRatio", "aria-hidden", "{http://www.w3.org/2000/xmlns/}xmlns"}


def digests(elements):
    return {"'sha256-" + base64.b64encode(hashlib.sha256((e.text or "").encode()).digest()).decode() + "'" for e in elements}


def policy_complaints(root):
    head = list(root.find(HTML + "head"))
    names = [element.tag.removeprefix(HTML) for element in head]
    policies = [e for e in head if e.get("http-equiv") == "Content-Security-Policy"]
    if len(policies) != 1 or head.index(policies[0]) > names.index("style"):
        return ["no policy before the first style"]
    rules = {rule.split()[0]: set(rule.split()[1:]) for rule in policies[0].get("content").split(";")}
    wanted = {"default-src": {"'none'"}, "base-uri": {"'none'"}, "form-action": {"'none'"},
              "style-src": digests(root.iter(HTML + "style")), "script-src": digests(root.iter(HTML + "script"))}
    return [] if rules == wanted else ["policy " + json.dumps({k: sorted(v) for k, v in rules.items()})]


def element_complaints(root):
    complaints = []
    for element in root.iter():
        if not isinstance(element.tag, str):
            complaints.append("a comment")
            continue
        is_svg = element.tag.startswith(svg.SVG)
        name = element.tag.removeprefix(svg.SVG if is_svg else HTML)
        if name not in (svg.ELEMENTS - {"style"} if is_svg else ELEMENTS):
            complaints.append("element " + element.tag)
        allowed = SVG_ATTRIBUTES if is_svg else ATTRIBUTES
        complaints += [f"attribute {attribute} of {name}" for attribute in element.attrib if attribute not in allowed]
        if element.get("href") is not None and not re.fullmatch(r"#[a-z]+(-\d+)*", element.get("href")):
            complaints.append("link to " + element.get("href"))
    return complaints


def link_complaints(root):
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    complaints = ["id twice: " + name for name in set(ids) if ids.count(name) > 1]
    return complaints + ["nothing at " + e.get("href") for e in root.iter(HTML + "a") if e.get("href")[1:] not in ids]


def heading_complaints(root):
    """One first heading; no level is left out on the way down."""
    levels = [int(element.tag[-1]) for element in root.iter() if re.fullmatch(re.escape(HTML) + r"h\d", str(element.tag))]
    complaints = [] if levels.count(1) == 1 and levels[0] == 1 else ["headings " + str(levels)]
    return complaints + [f"heading {b} after {a}" for a, b in zip(levels, levels[1:]) if b > a + 1]


def text_of(element):
    """What can be read in it: a folded part too, the picture, style and script not."""
    pieces = [element.text or ""]
    for child in element:
        skipped = child.tag in (svg.SVG + "svg", HTML + "style", HTML + "script")
        pieces += ["" if skipped else text_of(child), child.tail or ""]
    return " ".join(" ".join(pieces).replace("\u00a0", " ").split())


def lists_in(element, name, wanted):
    return [text_of(one) for part in element.iter(HTML + name) if part.get("class") == wanted for one in part.iter(HTML + "li")]


def step_of(element):
    heading = element.find(HTML + "h3")
    link = next(element.iter(HTML + "a"), None)
    return {"says": text_of(heading), "text": text_of(element), "cautions": lists_in(element, "div", "cautions"),
            "leads_to": None if link is None else link.get("href")[1:]}


def judge(raw):
    try:
        root = html5lib.HTMLParser(strict=True).parse(raw)
    except html5lib.html5parser.ParseError as error:
        return {"complaints": ["not HTML: " + str(error)]}
    body = root.find(HTML + "body")
    pictures = [e for e in root.iter(svg.SVG + "svg") if e.get("class") == "picture"]
    complaints = policy_complaints(root) + element_complaints(root) + link_complaints(root) + heading_complaints(root)
    complaints += ["character " + character for character in svg.harmful(raw)]
    return {"complaints": complaints, "text": text_of(body),
            "headings": [text_of(element) for element in root.iter(HTML + "h2")],
            "first": [text_of(e) for e in root.iter(HTML + "section") if e.get("class") == "result"],
            "steps": [step_of(e) for part in root.iter(HTML + "ol") for e in part if e.tag == HTML + "li"],
            "rows": [[text_of(cell) for cell in row if cell.tag == HTML + "td"] for row in root.iter(HTML + "tr")],
            "places": {e.get("id"): e.get("data-part") for e in root.iter(svg.SVG + "g") if e.get("id")},
            "parts": svg.parts(pictures[-1]) if pictures else {}, "brief": svg.parts(pictures[0]) if len(pictures) > 1 else {}}


if __name__ == "__main__":
    print(json.dumps([judge(open(file, encoding="utf-8").read()) for file in sys.argv[1:]]))
