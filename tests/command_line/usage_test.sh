#!/bin/sh
# Help, version, wrong usage: words and exit statuses.
. "$(dirname "$0")/support.sh"

run 0 --version
out_has "stockinger 0."
run 0 --help
out_has "Examples:"
out_has "stockinger check"
for command in check build fit explain swatch; do
  run 0 $command --help
  out_has "Examples:"
  out_has "  stockinger $command"
  err_is_empty
done

run 2
err_has "a command is needed: check, build, fit, explain or swatch"
run 2 chekc x.stk
err_has 'there is no command `chekc`'
err_has '`check` is near'
run 2 check
err_has '`check` needs the name of a pattern file'
run 2 build
err_has '`build` needs the name of a pattern file'
run 2 build a.stk b.stk
err_has '`build` takes one pattern file at a time'
run 2 check --formt json x.stk
err_has 'there is no option `--formt`'
err_has '`--format` is near'
run 2 check --format jsno x.stk
err_has 'findings cannot be written as `jsno`'
err_has '`json` is near'
run 2 check x.stk --format
err_has '`--format` needs a value after it'
run 2 check --show many x.stk
err_has '`--show` needs a whole number'
run 2 check --set heel x.stk
err_has '`--set` needs a name and a value'
run 2 check --set a=1 --set a=2 x.stk
err_has '`--set a` is given twice'
run 2 check --measure foot_length x.stk
err_has '`--measure` needs a name and a value'
err_has '`--measure foot_length=24.3cm`'
run 2 check --measure a=1cm --measure a=2cm x.stk
err_has '`--measure a` is given twice'
run 2 check - -
err_has 'standard input (`-`) can be read once only'
run 2 build --to markdwon x.stk
err_has 'there is no format `markdwon`'
err_has '`markdown` is near'
run 2 fit
err_has '`fit` needs the name of a pattern file'
run 2 fit a.stk b.stk
err_has '`fit` takes one pattern file at a time'
run 2 fit --format jsno x.stk
err_has 'a report cannot be written as `jsno`'
err_has '`json` is near'
run 2 check --library nowhere x.stk
err_has "nowhere: there is no folder of this name to take libraries from"

# The report of fit: of one edition and size, for programs, and with a picture.
sock=$source_folder/examples/slack-water.stk
run 0 fit "$sock" --edition mid --size women_m
out_has "Fit of Slack Water, edition mid"
out_has "Women M"
out_has "Heel: this size passes."
err_is_empty
run 0 fit "$sock" --edition mid --format json
out_has '"edition": "mid"'
run 0 fit "$sock" --edition mid --plot pictures/people.svg
xmllint --noout pictures/people.svg || fail "$what: the picture is no XML"
rsvg-convert pictures/people.svg -o people.png || fail "$what: the picture cannot be drawn"
run 2 fit "$sock" --plot people.svg
err_has "a picture shows one edition"
run 2 fit "$sock" --size women_q
err_has 'this pattern has no size `women_q`'
run 1 fit "$source_folder/tests/snapshots/sizes/sock_outside_ease.stk"
out_has "Around: outside the range declared in Child M"
run 1 fit "$source_folder/examples/mistakes/groups.stk"
err_has "no fit was worked out"
out_is_empty

run 0 explain S01
out_has "# S01: "
run 0 explain s01
out_has "# S01: "
run 0 explain
out_has "S01  "
run 2 explain S00
err_has 'there is no finding `S00`'
run 2 explain S01 S02
err_has '`explain` takes one code at a time'

# Every code that is listed has its page.
"$stockinger" explain >listed
without=
while read -r code _; do
  "$stockinger" explain "$code" | grep -q "^# $code: " || without="$without $code"
done <listed
is "$without" "" "codes without a page"
finish
