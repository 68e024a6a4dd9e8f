#!/usr/bin/env bash
# Every path of the project that a Markdown file names in backticks is there, and every relative link leads somewhere:
# recipes that name files must not rot. Words in capitals, `*`, `…` and `<…>` stand for something to be filled in.
set -euo pipefail
wrong=0
while IFS= read -r page; do
    folder=$(dirname "$page")
    while IFS=: read -r line path; do
        path=${path%/}
        [ -e "$path" ] || [ -e "$folder/$path" ] || {
            echo "$page:$line: there is no \`$path\`"
            wrong=1
        }
    done < <(grep -noE '`\.?/?(compiler|stdlib|examples|tests|editors|\.ci)/[A-Za-z0-9_./-]+`' "$page" | tr -d '`' |
        grep -vE '/[A-Z_]{2,}(\.|/|$)' || true)
    while IFS=: read -r line path; do
        path=${path%%#*}
        [ -z "$path" ] || [ -e "$folder/$path" ] || {
            echo "$page:$line: the link to $path leads nowhere"
            wrong=1
        }
    done < <(grep -noE '\]\([^)]+\)' "$page" | sed -E 's/\]\(([^) ]+).*/\1/' | grep -vE ':(https?:|mailto:)' || true)
done < <(find . -name '*.md' -not -path '*/node_modules/*' -not -path './build*' -not -path './.git/*' | sort)
exit $wrong
