"""No two types of the program share a name: one of them would silently be taken for the other at link time.

Reads the sources of the library and the program, and beside them those of each folder of tests, which is one program
with the library. Types in unnamed namespaces and within types are nobody else's and do not count."""
import collections
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
OPENS = re.compile(r"namespace\s*([\w:]*)\s*\{|(?:struct|class|enum class)\s+(\w+(?:::\w+)*)[^;{}()]*\{|\{|\}")


def types_of(source):
    """The qualified names of the types that a source defines for all to see."""
    text = re.sub(r'"(\\.|[^"\\])*"|//.*', "", source.read_text())
    around = []  # names of the namespaces that are open, None for any other brace
    for match in OPENS.finditer(text):
        if match[0] == "}":
            if around:
                around.pop()
        elif match[0].startswith("namespace"):
            around.append(match[1] or "unnamed")
        else:
            if match[2] and None not in around and "unnamed" not in around:
                yield "::".join([*around, match[2]])
            around.append(None)


def duplicates(sources):
    places = collections.defaultdict(set)
    for source in sources:
        for name in types_of(source):
            places[name].add(str(source.relative_to(ROOT)))
    return {name: sorted(files) for name, files in places.items() if len(files) > 1}


def sources_in(folder):
    return [file for file in sorted((ROOT / folder).rglob("*")) if file.suffix in (".cpp", ".hpp")]


program = sources_in("lib") + sources_in("cli")
found = duplicates(program)
for folder in sorted(path for path in (ROOT / "tests").iterdir() if path.is_dir() and path.name not in ("bench", "consumer", "fuzz")):
    found.update(duplicates(sources_in("lib") + sources_in(folder) + sorted((ROOT / "tests").glob("*.?pp"))))
for name, files in sorted(found.items()):
    print(name, "is defined in", " and ".join(files))
print(len(set().union(*(types_of(source) for source in program))), "types looked at")
sys.exit(1 if found else 0)
