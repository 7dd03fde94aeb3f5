#!/bin/sh
# Writes anew what is kept beside the sources of this folder, and the parts of it that README.md shows:
#
#   sh examples/refresh.sh [PROGRAM]
#
# For those who change the program or a source: look at the differences before you keep them. A part that README.md shows
# of a file begins with its old first line. If there is no empty line in it, it goes to the next one; else to its old last
# two lines. Where they are no longer there, it is said.
set -eu
cd "$(dirname "$0")/.."
program=${1:-build/stockinger}

for pattern in examples/*.stk; do
  folder=${pattern%.stk}
  rm -rf "$folder"
  "$program" build "$pattern" --out "$folder" >/dev/null
done

fresh=$(mktemp)
trap 'rm -f "$fresh"' EXIT
awk -v program="$program" '
  function show_part(file,    line, before, on, done, part) {
    while (!done && (getline line <file) > 0) {
      if (!on && line == first) on = 1
      if (on && line == "" && !gaps) { done = 1; break }
      if (on) part = part line "\n"
      if (on && gaps && line == last && before == last_but_one) done = 1
      before = line
    }
    close(file)
    if (done) return part
    print "README.md: the part of " file " that began with `" first "` is not there any more" >"/dev/stderr"
    return shown
  }
  function show_findings(file,    command, line, all) {
    command = program " check " file " 2>&1"
    while ((command | getline line) > 0) all = all line "\n"
    close(command)
    return all
  }
  /^```/ && inside {
    printf "%s", how == "from" ? show_part(file) : show_findings(file)
    inside = 0
  }
  inside {
    if (shown == "") first = $0
    if ($0 == "") gaps = 1
    last_but_one = last
    last = $0
    shown = shown $0 "\n"
    next
  }
  { print }
  $1 == "```text" && NF == 3 { inside = 1; how = $2; file = $3; gaps = 0; first = last = shown = "" }
' README.md >"$fresh"
cat "$fresh" >README.md
git diff --stat -- README.md examples 2>/dev/null || true
