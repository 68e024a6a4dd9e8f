#!/usr/bin/env bash
# Every word of the language is a word of the grammar for editors.
set -euo pipefail
grammar=editors/curb.tmLanguage.json
status=0
while read -r word; do
    if ! grep -qE "[(|]$word[)|]" "$grammar"; then
        echo "$grammar does not know the word \`$word\` of compiler/syntax/words.def"
        status=1
    fi
done < <(sed -nE 's/^(SOFT|HARD)\(([a-z_]+)\).*/\2/p' compiler/syntax/words.def)
exit $status
