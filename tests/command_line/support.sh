# shellcheck shell=sh
# For the tests of the built program: `sh NAME_test.sh PROGRAM SOURCE_FOLDER`. Each runs in a folder of its own.
set -u
stockinger=$1
source_folder=$2
work=$(mktemp -d)
trap 'chmod -R u+rwx "$work" 2>/dev/null; rm -rf "$work"' EXIT
cd "$work" || exit 1
unset NO_COLOR
failures=0

fail() {
  failures=$((failures + 1))
  echo "FAILED: $*"
  [ ! -s out ] || sed 's/^/  out: /' out | head -20
  [ ! -s err ] || sed 's/^/  err: /' err | head -20
}

# run STATUS ARGUMENTS...: the program's exit status must be STATUS; what it prints is in ./out and ./err. Standard input is
# ./in if there is one. No run may take longer than 20 seconds, or crash.
run() {
  expected=$1
  shift
  what="stockinger $*"
  if [ -e in ]; then timeout 20 "$stockinger" "$@" <in >out 2>err; else timeout 20 "$stockinger" "$@" </dev/null >out 2>err; fi
  status=$?
  [ "$status" -eq "$expected" ] || fail "$what: exit status $status, not $expected"
}

out_has() { grep -qF -- "$1" out || fail "$what: standard output lacks: $1"; }
err_has() { grep -qF -- "$1" err || fail "$what: standard error lacks: $1"; }
out_is_empty() { [ ! -s out ] || fail "$what: standard output is not empty"; }
err_is_empty() { [ ! -s err ] || fail "$what: standard error is not empty"; }
is() { [ "$1" = "$2" ] || fail "$3: \`$1\` is not \`$2\`"; }
nothing_left() { [ -z "$(find "$1" -name '.stockinger-*')" ] || fail "half a file was left in $1"; }

finish() {
  [ "$failures" -eq 0 ] && echo "all good"
  exit "$failures"
}
