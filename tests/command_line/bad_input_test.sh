#!/bin/sh
# What people really do to a program: each of these is a clear finding or message, and never a crash, a hang or half a
# file.
. "$(dirname "$0")/support.sh"

# Files that are no sources: exit status 2 and one line that says what they are.
run 2 check missing.stk
err_has "missing.stk: there is no file of this name"
mkdir folder.stk
run 2 check folder.stk
err_has "folder.stk: it is a folder, not a file"
run 2 check /dev/null
err_has "/dev/null: it is a device or a socket, not a file"
head -c 4096 "$stockinger" >binary.stk
run 2 check binary.stk
err_has "binary.stk: it is not a text file"
printf 'stockinger 1\n' | iconv -f UTF-8 -t UTF-16 >utf16.stk
run 2 check utf16.stk
err_has "utf16.stk: it is in UTF-16; save it as UTF-8"
printf 'stockinger 1\n# Gr\374n\n' >latin1.stk
run 2 check latin1.stk
err_has "latin1.stk: it is not in UTF-8: line 2"
head -c 50000000 /dev/zero | tr '\0' x >long.stk
run 2 check long.stk
err_has "long.stk: it is longer than 4 MiB"
rm long.stk
if [ "$(id -u)" -ne 0 ]; then
  echo 'stockinger 1' >secret.stk
  chmod 0 secret.stk
  run 2 check secret.stk
  err_has "secret.stk: you have no permission to read it"
fi
mkfifo pipe.stk
# The writer gives up by itself, so that a reader that never comes does not hang the test.
timeout 20 sh -c "printf 'stockinger 1\n' >pipe.stk" >/dev/null 2>&1 </dev/null &
run 0 check pipe.stk   # a pipe is read like a file
out_has "pipe.stk: nothing found"

# Several files: those that can be read are checked; the worst counts.
: >empty.stk
run 2 check empty.stk missing.stk
out_has "empty.stk:1"
err_has "missing.stk: there is no file"

# Sources that are text: findings, exit status 1.
: >in
run 1 check -
out_has "<standard input>:1"
rm in
run 1 check empty.stk
out_has "error"
printf 'stockinger 1\n\nlet a = \342\200\234x\342\200\235\n' >quotes.stk
run 1 check quotes.stk
out_has "error"
printf 'stockinger 1\n\nlet a = 3 \303\227 4\n' >times.stk
run 1 check times.stk
out_has "error"
printf 'stockinger 1\n<<<<<<< ours\nlet a = 3\n=======\nlet a = 4\n>>>>>>> theirs\n' >merge.stk
run 1 check merge.stk
out_has "error"
for open in '{' '(' '['; do
  { printf 'stockinger 1\n\npiece sock {\n'; i=0
    while [ $i -lt 10000 ]; do printf 'repeat 2 times %s\n' "$open"; i=$((i + 1)); done; } >deep.stk
  run 1 check deep.stk
  out_has "error"
done
{ printf 'stockinger 1\n\nlet a = '; head -c 10000 /dev/zero | tr '\0' '('; printf '3\n'; } >brackets.stk
run 1 check brackets.stk
out_has "error"
{ printf 'stockinger 1\n\nlet a = '; head -c 100000 /dev/zero | tr '\0' 9; printf '\n'; } >digits.stk
run 1 check digits.stk
out_has "error"
{ printf 'stockinger 1\n# '; head -c 4000000 /dev/zero | tr '\0' x; printf '\nlet a = \n'; } >wide.stk
run 1 check wide.stk
out_has "error"
[ "$(wc -c <out)" -lt 20000 ] || fail "a finding in a source with a long line prints the whole line"
{ printf 'stockinger 1\nlet a = '; head -c 4000000 /dev/zero | tr '\0' x; printf ' + \n'; } >wide.stk
run 1 check wide.stk
[ "$(wc -c <out)" -lt 20000 ] || fail "a finding in a long line prints the whole line"

# Control characters of a source never reach the terminal.
printf 'stockinger 1\nlet a = \033]0;title\007 3\n' >escape.stk
run 1 check escape.stk
if grep -q "$(printf '\033')" out; then fail "an escape sequence of the source is printed"; fi

# JSON stays JSON whatever was found.
for source in *.stk; do
  [ -f "$source" ] || continue
  "$stockinger" check --format json "$source" >out 2>err
  python3 -c 'import json, sys; json.load(open("out"))' || fail "$source: the findings are no JSON"
done

# Nothing was written anywhere by all this.
run 1 build empty.stk --out built
err_has "nothing was written"
[ ! -e built ] || fail "build made a folder although there was an error"
finish
