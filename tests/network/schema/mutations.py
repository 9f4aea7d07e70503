"""Systematic mutations of a JSON document: every key dropped, every object given an unknown key, every value of a wrong
type, out of range, too long, of a wrong word. Places that differ only in the name of a map's entry count as one."""

import copy

MAPS = {
    "modules", "buses", "gateways", "points", "feeds", "grounds", "functions",
    "modules.*.references", "modules.*.codes", "buses.*.segments", "buses.*.segments.*.pins", "diagnostic_connector.buses",
}
WRONG_TYPES = [None, True, 7.5, "text", [], {}, ["text"], {"key": "text"}]
NUMBERS = [-1, 0, 0.001, 0.5, 1, 60, 60.5, 99, 100, 100.5, 255, 256, 500, 501, 1000, 1001, 1899, 1900, 2000, 2001, 2100, 2101,
           10000, 10001, 1000000, 1000001, 2000000000, 2000000001, 1e300, 3.0]
TEXTS = ["", " ", "\u00a0\u3000", "a b", "a/b", "a:b", "a.b", "a\u00a0b", "\u001b[31m", "a\tb", "a\u0085b", "a\u2028b", "a\u202eb",
         "a\u200bb", "\U000e0041", "\ufeff", "é" * 64, "é" * 65, "\U0001f600" * 200, "x" * 201, "x" * 2000, "x" * 2001, "OFF", "fuses"]
KEYS = ["", " ", "a b", "a/b", "a:b", "\u0007", "x" * 64, "x" * 65, "x" * 200, "x" * 201]
LENGTHS = [1, 2, 3, 4, 5, 6, 20, 21, 100, 101, 1000, 1001]


def below(path, key):
    return f"{path}.{key}" if path else key


def steps(value, path):
    """Children as (key, general path of the child)."""
    if isinstance(value, dict):
        return [(key, below(path, "*" if path in MAPS else key)) for key in value]
    if isinstance(value, list):
        return [(i, path + "[]") for i in range(len(value))]
    return []


def all_paths(value, path=""):
    found = {path}
    for key, child in steps(value, path):
        found |= all_paths(value[key], child)
    return found


def pruned(value, path="", seen=None):
    """The value with only those entries of maps and lists that show a path which none before showed."""
    seen = set() if seen is None else seen
    if isinstance(value, dict) or isinstance(value, list):
        kept = {}
        for key, child in steps(value, path):
            new = all_paths(value[key], child) - seen
            if path in MAPS or isinstance(value, list):
                if not new and kept:
                    continue
            kept[key] = pruned(value[key], child, seen)
            seen |= new
        return kept if isinstance(value, dict) else list(kept.values())
    return value


def places(value, path="", way=()):
    """Every place as (general path, way of keys), the first of each general path."""
    found = {}

    def visit(here, general, keys):
        found.setdefault(general, keys)
        for key, child in steps(here, general):
            visit(here[key], child, keys + (key,))

    visit(value, path, way)
    return found


def changed(document, way, change):
    """A copy in which `change` has been applied to the holder and the last key of the way."""
    copied = copy.deepcopy(document)
    holder = copied
    for key in way[:-1]:
        holder = holder[key]
    change(holder, way[-1])
    return copied


def put(new):
    def change(holder, key):
        holder[key] = new
    return change


def drop(holder, key):
    del holder[key]


def rename(new):
    def change(holder, key):
        holder[new] = holder.pop(key)
    return change


def of_value(value, path, thorough):
    """Replacements for a value."""
    for wrong in WRONG_TYPES if thorough else WRONG_TYPES[:1]:
        if type(wrong) is not type(value):
            yield wrong
    if isinstance(value, bool):
        return
    if isinstance(value, (int, float)):
        yield from NUMBERS if thorough else [-1, 1e300]
    elif isinstance(value, str):
        yield from TEXTS if thorough else ["", "x" * 2001, value + " "]
    elif isinstance(value, list):
        yield []
        if value:
            yield value + value[:1]
            for length in LENGTHS if thorough else []:
                yield [f"{value[0]}{i}" if isinstance(value[0], str) else value[0] for i in range(length)]
    elif isinstance(value, dict):
        yield {}
        yield {**value, "unknown_key": 1}
        if path in MAPS and value and thorough:
            first = next(iter(value.values()))
            for key in KEYS:
                yield {**value, key: first}
            many = (2000, 2001, 5000, 5001) if path.endswith(("points", "feeds", "segments")) else (100, 101)
            for length in (3, 300, 301, 1000, 1001, *many):
                yield {f"x{i}": first for i in range(length)}


SKELETON = {"modules": {"M": {}}, "buses": {"B": {"protocol": "lin", "members": ["M"]}}}


def focused(document, way):
    """The document with only the outermost key of the way, and what no network can be without."""
    kept = {key: document[key] for key in ("format", "extends") if key in document}
    return {**kept, **({} if "extends" in document else SKELETON), way[0]: document[way[0]]}


def of_place(document, path, way, thorough):
    value = document
    for key in way:
        value = value[key]
    if not way:
        yield from of_value(value, path, thorough)
        return
    for new in of_value(value, path, thorough):
        yield changed(document, way, put(new))
    yield changed(document, way, drop)
    if isinstance(way[-1], str):
        yield changed(document, way, rename(way[-1] + "_"))


def of_document(document, thorough_paths):
    """Every mutation of the document; the paths not yet in `thorough_paths` are mutated thoroughly and added to it."""
    for path, way in places(document).items():
        thorough = path not in thorough_paths
        thorough_paths.add(path)
        yield from of_place(focused(document, way) if way else document, path, way, thorough)


def some(document, count, chance):
    """A few mutations of the document, at places drawn by chance."""
    all_places = sorted(places(document).items())
    for path, way in chance.sample(all_places, min(count, len(all_places))):
        yield chance.choice(list(of_place(document, path, way, False)))
