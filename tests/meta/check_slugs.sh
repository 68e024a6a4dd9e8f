#!/usr/bin/env bash
# Every slug that the compiler gives to a message has an entry in the catalogue, and every entry is given somewhere: a
# page about a message that never comes is as bad as a message without a page.
set -euo pipefail
given=$(grep -rhoE '(\.slug = |slug\(\) const override \{ return |finding\.slug = |complain\(|diagnostic\()"[a-z-]+"' \
    compiler --include='*.cpp' --include='*.h' --include='*.hpp' | grep -oE '"[a-z-]+"' | sort -u)
listed=$(grep -hoE '^ *(CatalogueEntry\{)?"[a-z-]+", Severity::' compiler/text/catalogue_*.cpp | grep -oE '"[a-z-]+"' | sort -u)
if [ -z "$given" ] || [ -z "$listed" ]; then
    echo "found no slugs: this check looks in the wrong way"
    exit 1
fi
wrong=0
for slug in $(comm -23 <(echo "$given") <(echo "$listed")); do
    echo "$slug is given to messages, but the catalogue (compiler/text/catalogue_*.cpp) does not explain it"
    wrong=1
done
for slug in $(comm -13 <(echo "$given") <(echo "$listed")); do
    # Slugs that are handed on in a variable, or chosen of two, are found by their quotes alone.
    grep -rqF "$slug" compiler --include='*.cpp' --include='*.h' --include='*.hpp' --exclude='catalogue_*' || {
        echo "$slug is in the catalogue, but no message has it"
        wrong=1
    }
done
exit $wrong
