#!/usr/bin/env bash
# Every C++ file of the project is laid out as .clang-format says. Mend: sh .ci/format.
set -euo pipefail
clang_format=${1:-clang-format-14}
wrong=$(find compiler tests -path '*/node_modules' -prune -o \( -name '*.h' -o -name '*.cpp' -o -name '*.hpp' \) -print0 |
    sort -z | xargs -0 "$clang_format" --dry-run 2>&1 | { grep -E '^[^ ].*(warning|error):' || true; } | sed -E 's/:[0-9]+:[0-9]+:.*//' | uniq -c)
if [ -n "$wrong" ]; then
    echo "not laid out as .clang-format says (places, file); mend with: sh .ci/format"
    echo "$wrong"
    exit 1
fi
