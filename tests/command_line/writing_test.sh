#!/bin/sh
# Each output file is written whole or not at all, and it is said which.
. "$(dirname "$0")/support.sh"
good=$source_folder/tests/command_line/good.stk

run 0 build "$good" --out out1
out_has "wrote out1/"
err_is_empty
[ "$(find out1 -type f | wc -l)" -ge 3 ] || fail "build without --to writes all formats"
nothing_left out1

# Twice the same bytes, whatever the locale and the clock say; what was there is replaced.
find out1 -type f | sort | xargs sha256sum >first
LC_ALL=de_DE.UTF-8 TZ=Pacific/Auckland run 0 build "$good" --out out1
find out1 -type f | sort | xargs sha256sum >second
cmp -s first second || fail "the same source gives other bytes"

# Exactly what was asked for.
run 0 build "$good" --to text --edition mid --out out2
is "$(find out2 -type f | wc -l)" 1 "one format, one edition"
run 0 build "$good" --to text --edition mid --size small --out out3
is "$(find out3 -type f | wc -l)" 1 "one format, one edition, one size"
run 2 build "$good" --size women --out out4
[ ! -e out4 ] || fail "a folder was made for a size that is not there"

# An error: nothing is written, not even the folder.
printf 'stockinger 1\nlet = 3\n' >bad.stk
run 1 build bad.stk --out out5
err_has "nothing was written"
[ ! -e out5 ] || fail "a folder was made in spite of an error"

# Folders that cannot be written.
: >file
run 2 build "$good" --out file
err_has "a part of the path is a file, not a folder"
run 2 build "$good" --out file/deeper
err_has "a part of the path is a file, not a folder"
run 2 build "$good" --out /proc/nowhere
err_has "cannot be written"
if [ "$(id -u)" -ne 0 ]; then
  mkdir locked
  chmod 500 locked
  run 2 build "$good" --out locked
  err_has "you have no permission to write there"
fi

# A folder stands where a file should go: nothing is written.
mkdir out6
(cd out1 && find . -type f) | head -1 | while read -r name; do mkdir -p "out6/$name"; done
run 2 build "$good" --out out6
err_has "a folder of that name is in the way"
is "$(find out6 -type f | wc -l)" 0 "files beside one that is in the way"

# A limit on the size of files (a block of 512 bytes: the message fits in, no output does): it is named, nothing is left.
(ulimit -f 1; "$stockinger" build "$good" --out out7 >out 2>err)
is $? 2 "build with no file allowed to grow"
grep -q "the file would be larger than is allowed" err || fail "a limit on file size is not named"
[ ! -e out7 ] || [ -z "$(find out7 -type f)" ] || fail "a limit on file size left files behind"

# A full disk: a tiny file system, where one can be mounted.
mkdir tiny
if [ "$(id -u)" -eq 0 ] && mount -t tmpfs -o size=4k none tiny 2>/dev/null; then
  run 2 build "$good" --out tiny/out
  err_has "the disk is full"
  err_has "nothing was written"
  is "$(find tiny -type f | wc -l)" 0 "files on a full disk"
  umount tiny
fi

# The n-th call that writes fails, for every n: a clear message, whole files only. strace(1) can make calls fail.
if command -v strace >/dev/null 2>&1 && strace -f -e trace=rename true 2>/dev/null; then
  for call in write fsync fchmod rename mkdir openat; do
    for n in 1 2 3 5; do
      rm -rf out8
      strace -f -o /dev/null -e trace=$call -P out8 -e "inject=$call:error=EIO:when=$n" \
        "$stockinger" build "$good" --out out8 >out 2>err
      status=$?
      [ $status -le 2 ] || fail "$call number $n fails: exit status $status"
      [ ! -d out8 ] || nothing_left out8
    done
  done
fi
finish
