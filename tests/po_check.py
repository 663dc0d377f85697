# What msgfmt does not look at: our own placeholders, blanks at the ends, letters that a font lacks.
# A planted fault of each kind is found first, so that a check that looks at nothing fails.

import re
import subprocess
import sys

FONTS = {"ja": "/usr/share/fonts/opentype/ipaexfont-gothic/ipaexg.ttf"}
LATIN = "assets/fonts/B612-Regular.otf"
BOLD = "assets/fonts/B612-Bold.otf"


def letters(font):
    said = subprocess.run(["fc-query", "--format", "%{charset}", font], check=True,
                          capture_output=True, text=True).stdout
    have = set()
    for part in said.split():
        low, _, high = part.partition("-")
        have.update(range(int(low, 16), int(high or low, 16) + 1))
    return have


def entries(text):
    """(English texts, translations, fuzzy or not) of every entry but the header and old ones."""
    for block in text.split("\n\n"):
        if re.search(r"^#~", block, re.M):
            continue
        fields = {}
        field = None
        for line in block.splitlines():
            start = re.match(r'(msgctxt|msgid_plural|msgid|msgstr(?:\[\d+\])?) "(.*)"$', line)
            if start:
                field = start[1]
                fields[field] = start[2]
            elif line.startswith('"') and field:
                fields[field] += line[1:-1]
        if fields.get("msgid"):
            ids = [value for key, value in fields.items() if key in ("msgid", "msgid_plural")]
            strs = [value for key, value in fields.items() if key.startswith("msgstr") and value]
            yield ids, strs, re.search(r"^#,.*fuzzy", block, re.M) is not None


def placeholders(text):
    return sorted(set(re.findall(r"%[1-9]|%[aAbBdnwekmfpth](?![a-zA-Z])", text)))


def wrong(ids, strs, have):
    for text in strs:
        # A plural's form for one thing may leave its number out.
        wanted = [placeholders(one) for one in ids]
        if placeholders(text) not in wanted:
            yield f"placeholders {placeholders(text)} instead of {wanted[-1]}: {text}"
        if (text[0] == " ") != (ids[0][0] == " ") or (text[-1] == " ") != (ids[0][-1] == " "):
            # Japanese has no blanks between joined sentences.
            if max(map(ord, text)) < 0x3000:
                yield f"blanks at the ends differ from the English text: {text}"
        lacks = {c for c in text if ord(c) not in have}
        if lacks:
            yield f"its font lacks {' '.join(sorted(lacks))}: {text}"


def main():
    latin = letters(LATIN) & letters(BOLD)
    planted = [(["%1 left"], ["links"]), (["Save"], [" Sichern"]), (["Save"], ["\u4fdd\u5b58"])]
    for ids, strs in planted:
        if not list(wrong(ids, strs, latin)):
            sys.exit(f"the check does not see what is wrong with {strs}")
    failed = False
    for path in sys.argv[1:]:
        language = re.search(r"(\w+)\.po$", path)[1]
        have = latin
        if language in FONTS:
            have = latin | letters(FONTS[language])
        count = 0
        for ids, strs, fuzzy in entries(open(path, encoding="utf-8").read()):
            count += len(strs)
            for what in [] if fuzzy else wrong(ids, strs, have):
                print(f"{path}: {what}", file=sys.stderr)
                failed = True
        if count < 1000:
            sys.exit(f"{path}: only {count} translations were read")
    sys.exit(failed)


main()
