#!/bin/sh
# Where things are printed: colour, standard output that cannot be written, several files, JSON.
. "$(dirname "$0")/support.sh"

printf 'stockinger 1\nlet = 3\n' >bad.stk
good=$source_folder/tests/command_line/good.stk

run 0 check "$good"
out_has "nothing found"
err_is_empty
run 1 check bad.stk "$good"
out_has "bad.stk:2"
out_has "nothing found"

# One person's measures: what was given and what was taken stands before all else; what cannot be made is refused.
sock=$source_folder/examples/slack-water.stk
run 0 check "$sock" --measure foot_length=24.3cm --measure "foot_around=22 cm"
out_has "made to measure from Women M: given foot_length, foot_around; of Women M leg_length"
out_has "nothing found, in 2 editions"
run 0 check "$sock" --measure foot_length=24.3cm --size men_m
out_has "made to measure from Men M: given foot_length"
run 0 build "$sock" --measure foot_length=24.3cm --to text --edition mid --out made
out_has "wrote made/slack-water.mid.made-to-measure.txt"
grep -q "The foot length was given for one person" made/slack-water.mid.made-to-measure.txt || fail "not said whose measures"
run 2 check "$sock" --measure foot_lenght=24.3cm
err_has 'the sizes of this pattern have no measure `foot_lenght`'
err_has '`foot_length` is near'
run 2 build "$sock" --measure foot_length=24.3 --out made
err_has '`foot_length` is a length, and 24.3 is a plain number'
run 2 check "$sock" --measure foot_length=3m
err_has '300 cm as `foot_length` is out of reach of this pattern'
sed '/^sizes {/,/^}/d; s/foot_around/20 cm/; s/foot_length/24 cm/' "$good" >one_size.stk
run 0 check one_size.stk
run 2 check one_size.stk --measure foot_length=24cm
err_has 'there is no table of sizes'

# A full disk under standard output.
if [ -e /dev/full ]; then
  for command in "check bad.stk" "check --format json bad.stk" "explain S01"; do
    # shellcheck disable=SC2086  # the command is words
    "$stockinger" $command >/dev/full 2>err
    is $? 2 "$command > /dev/full"
    grep -q "could not be written to standard output" err || fail "$command > /dev/full says nothing"
  done
fi
"$stockinger" check bad.stk >&- 2>err
is $? 2 "check with standard output closed"

# Colour: not into a file; on a terminal, unless NO_COLOR is set or the terminal is dumb. script(1) gives a terminal.
coloured() { grep -q "$(printf '\033')\[" "$1"; }
run 1 check bad.stk
if coloured out; then fail "colour in a file"; fi
if command -v script >/dev/null 2>&1; then
  TERM=xterm script -qec "'$stockinger' check bad.stk" typescript </dev/null >/dev/null 2>&1
  coloured typescript || fail "no colour on a terminal"
  NO_COLOR=1 TERM=xterm script -qec "'$stockinger' check bad.stk" typescript </dev/null >/dev/null 2>&1
  if coloured typescript; then fail "colour in spite of NO_COLOR"; fi
  TERM=dumb script -qec "'$stockinger' check bad.stk" typescript </dev/null >/dev/null 2>&1
  if coloured typescript; then fail "colour on a dumb terminal"; fi
fi

# JSON: one array over all files, the promised keys, null where there is nothing.
run 1 check --format json bad.stk "$good" bad.stk
python3 - <<'END' || fail "the JSON is not as promised"
import json
findings = json.load(open("out"))
assert len(findings) >= 2, findings
for finding in findings:
    for key in ("code", "severity", "message", "file", "line", "column", "sizes", "edition", "row", "needle"):
        assert key in finding, key
assert findings[0]["file"] == "bad.stk" and findings[0]["line"] == 2, findings[0]
assert findings[0]["sizes"] is None and findings[0]["row"] is None, findings[0]
END
run 0 check --format json "$good"
is "$(cat out)" "[]" "no findings as JSON"

# Only so many are shown, all are counted.
{ printf 'stockinger 1\n'; i=0; while [ $i -lt 30 ]; do echo 'let = 3'; i=$((i + 1)); done; } >many.stk
run 1 check many.stk
is "$(grep -c '^error' out)" 20 "findings shown by default"
out_has "more than are shown here"
run 1 check --show 3 many.stk
is "$(grep -c '^error' out)" 3 "findings shown with --show 3"
run 1 check --show 0 many.stk
[ "$(grep -c '^error' out)" -ge 30 ] || fail "--show 0 does not show all"

# Standard input.
cp "$good" in
run 0 check -
out_has "<standard input>: nothing found"
rm in

# An edition, a size or a setting that the pattern has not.
run 2 check --edition mdi "$good"
err_has 'this pattern has no edition `mdi`'
run 2 check --size women "$good"
err_has 'this pattern has no size `women`'
run 2 check --set nothing=3 "$good"
err_has 'this pattern has no setting `nothing`'
finish
