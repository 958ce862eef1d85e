#!/bin/sh
# Which file holds what: its path and what its first comment says of it, one line a file, by
# room. A file without a comment at its head has that of its header.
#   sh src/gen/map.sh [WORD...]      only lines that hold each WORD: 745.85, dust, merge
set -eu
cd "$(dirname "$0")/../.."

# The first comment of a file in one line, up to its first blank line.
head_of() {
    awk 'NR == 1 && !/^\/\*/ { exit }
         { line = $0; end = sub(/ *\*\/.*/, "", line); sub(/^ ?\/?\*+ ?/, "", line)
           if (line == "" && NR > 1) exit
           text = text (text == "" ? "" : " ") line
           if (end) exit }
         END { sub(/^(mistfold\/)?[a-z_0-9]+\.(h|c|inc) - /, "", text); print text }' "$1"
}

all() {
    for file in include/mistfold/*.h src/*/*.[ch] src/*/*.inc tests/*/*.[ch]; do
        [ -f "$file" ] || continue
        said=$(head_of "$file")
        if [ -z "$said" ] && [ -f "${file%.c}.h" ]; then
            said=$(head_of "${file%.c}.h")
        fi
        [ -n "$said" ] || echo "lint: $file: no comment at its head says what it holds" >&2
        printf '%-38s %s\n' "$file" "$said"
    done
}

lines=$(all)
for word in "$@"; do
    lines=$(printf '%s\n' "$lines" | grep -i -F -e "$word") || {
        echo "no file says $word at its head" >&2
        exit 1
    }
done
printf '%s\n' "$lines"
