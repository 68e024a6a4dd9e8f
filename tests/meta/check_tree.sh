#!/usr/bin/env bash
# The top level holds what newcomers are told it holds, and nothing of a machine or of a build.
set -euo pipefail
allowed='^(CMakeLists\.txt|CMakePresets\.json|README\.md|DEVELOPERS\.md|CHANGELOG\.md|LICENSE|compiler|stdlib|examples|tests|editors|\..*)$'
if ! files=$(git ls-files 2>/dev/null) || [ -z "$files" ]; then
    files=$(find . -mindepth 1 -maxdepth 1 -printf '%f\n' | grep -Ev '^build(-.*)?$')
fi
odd=$(cut -d/ -f1 <<<"$files" | sort -u | grep -Ev "$allowed" || true)
if [ -n "$odd" ]; then
    echo "does not belong at the top level:"
    echo "$odd"
    exit 1
fi
