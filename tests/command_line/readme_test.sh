#!/bin/sh
# Every command that README.md shows does what it says. Blocks marked `sh` are run line by line in a copy of what a reader
# has; a block marked `sh exit 1` is one whose commands end with that status. The two scripts are not run from here, for
# this test is part of one of them.
. "$(dirname "$0")/support.sh"

cp -R "$source_folder/examples" "$source_folder/README.md" .
rm -rf examples/out
mkdir build
ln -s "$stockinger" build/stockinger
PATH=$work/build:$PATH

awk '
  /^```/ { if (open) { open = 0 } else if ($0 ~ /^```sh( |$)/) { open = 1; status = ($2 == "exit") ? $3 : 0 } next }
  open && NF && $1 !~ /^#/ { print status "\t" $0 }
' README.md >commands
[ -s commands ] || fail "README.md shows no command"
while IFS='	' read -r expected command; do
  case $command in
    *"sh examples/run.sh"* | *"sh tests/run.sh"* | "git clone"* | "cd "*)
      script=$(echo "$command" | grep -o '[a-z]*/run.sh' || true)
      [ -z "$script" ] || [ -f "$source_folder/$script" ] || fail "README.md names $script"
      ;;
    *)
      sh -c "$command" </dev/null >out 2>err
      status=$?
      [ "$status" -eq "$expected" ] || fail "$command: exit status $status, not $expected"
      ;;
  esac
done <commands
finish
