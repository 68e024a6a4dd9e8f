#!/usr/bin/env bash
# A folder of compiler/ includes itself and those before it, never one after it; and the syntax tree ends with meaning:
# instants and proofs see the model only, so that a change of syntax cannot change a proof. Every header opens with a
# comment that says what it is for and guards itself.
set -euo pipefail
order=(text syntax meaning instants proofs quantities output command)
wrong=0
say() {
    echo "$1"
    wrong=1
}

rank() {
    local i
    for i in "${!order[@]}"; do
        [ "${order[$i]}" != "$1" ] || { echo "$i"; return; }
    done
    echo -1
}

for folder in "${order[@]}"; do
    [ -d "compiler/$folder" ] || continue
    mine=$(rank "$folder")
    while IFS=: read -r file line included; do
        theirs=$(rank "$included")
        if [ "$theirs" -lt 0 ]; then
            say "$file:$line: includes from \`$included/\`, which is no folder of compiler/"
        elif [ "$theirs" -gt "$mine" ]; then
            say "$file:$line: \`$folder/\` comes before \`$included/\` and must not include from it"
        elif [ "$included" = syntax ] && { [ "$folder" = instants ] || [ "$folder" = proofs ]; }; then
            say "$file:$line: \`$folder/\` works on the model and must not see the syntax tree"
        fi
    done < <(grep -rnoE '^ *# *include "[a-z_]+/' "compiler/$folder" --include='*.h' --include='*.cpp' --include='*.hpp' |
        sed -E 's/^([^:]+:[0-9]+): *# *include "([a-z_]+)\//\1:\2/')
done

while IFS= read -r header; do
    head -n 1 "$header" | grep -q '^// ' || say "$header:1: a header opens with a comment that says what it is for"
    grep -q '^#pragma once$' "$header" || say "$header:1: lacks \`#pragma once\`"
done < <(find compiler -name '*.h' -o -name '*.hpp' | sort)
exit $wrong
