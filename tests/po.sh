#!/usr/bin/env bash
# The catalogues hold: kerfside.pot has every text of the sources, msgfmt takes every .po, each
# translation has the placeholders of its English text and letters that its font has, and the
# languages below are complete.
set -euo pipefail
cd "$(dirname "$0")/.."

complete=(de es fr ja)

failed=0
assets/po/update --check > /dev/null || failed=1
for po in assets/po/*.po; do
    msgfmt --check-format --check-header -o /dev/null "$po" || failed=1
done
for language in "${complete[@]}"; do
    said=$(msgfmt --statistics -o /dev/null "assets/po/$language.po" 2>&1)
    if grep -qE 'fuzzy|untranslated' <<< "$said"; then
        echo "assets/po/$language.po: $said" >&2
        failed=1
    fi
done
python3 tests/po_check.py assets/po/*.po || failed=1
python3 tests/po_doing.py || failed=1
exit $failed
