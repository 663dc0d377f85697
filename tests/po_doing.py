# "Could not <doing> ...": the verb phrase that a caller gives is marked with N_ everywhere, so that
# it stands in the catalogues. A planted fault is found first.

import glob
import re
import sys

TEXT = r'"(?:[^"\\]|\\.)*"'
MARKED = re.compile(r"\b(?:N_|_)\(\s*(?:" + TEXT + r"\s*)+\)")
DEFINED = re.compile(r"^(static )?[\w ]+[ *](\w+)\(([^;{]*?const char \*doing\b[^;{]*?)\)\s*[;{_]",
                     re.M)


def takers(source):
    """{function: place of `doing` among its arguments}: those of this file alone, those of all."""
    here, everywhere = {}, {}
    for static, name, arguments in DEFINED.findall(source):
        place = [one.strip().endswith("*doing") for one in arguments.split(",")].index(True)
        (here if static else everywhere)[name] = place
    return here, everywhere


def arguments(source, start):
    """The arguments of the call whose bracket was opened before `start`."""
    found, depth, begin = [], 1, start
    for piece in re.compile(TEXT + r"|'(?:[^'\\]|\\.)'|[(){},]").finditer(source, start):
        sign = piece[0]
        if sign in "({":
            depth += 1
        elif sign in ")}":
            depth -= 1
        if depth == 0 or (depth == 1 and sign == ","):
            found.append(source[begin:piece.start()])
            begin = piece.end()
        if depth == 0:
            break
    return found


def unmarked(source, known):
    """Counts the calls, and lists (line, argument) of the literals that are not marked."""
    calls, bad = 0, []
    for call in re.finditer(r"\b(" + "|".join(known) + r")\(", source):
        given = arguments(source, call.end())
        if len(given) <= known[call[1]]:
            continue
        argument = given[known[call[1]]]
        calls += 1
        if '"' in MARKED.sub("", argument):
            bad.append((source.count("\n", 0, call.start()) + 1, argument.strip()))
    return calls, bad


def main():
    sources = {path: open(path, encoding="utf-8").read()
               for path in glob.glob("src/store/*.[ch]")}
    everywhere = {}
    for source in sources.values():
        everywhere.update(takers(source)[1])
    planted = 'query_end(\n  &query, a ? N_("read") : "write");'
    if unmarked(planted, everywhere) != (1, [(1, 'a ? N_("read") : "write"')]):
        sys.exit("the check does not see a phrase without N_")
    count, failed = 0, False
    for path, source in sorted(sources.items()):
        calls, bad = unmarked(source, everywhere | takers(source)[0])
        count += calls
        for line, argument in bad:
            print(f"{path}:{line}: mark with N_: {argument}", file=sys.stderr)
            failed = True
    if count < 150:
        sys.exit(f"only {count} phrases were found")
    sys.exit(failed)


main()
