#!/bin/sh
# The examples are clean, what was written from them lies beside them byte for byte, and what README.md shows of them is
# what they are. After a change of wording `sh examples/refresh.sh` writes them anew.
. "$(dirname "$0")/support.sh"
examples=$source_folder/examples

for pattern in "$examples"/*.stk; do
  name=$(basename "$pattern" .stk)
  run 0 check "$pattern"
  if grep -qE "^(error|warning) " out; then fail "$name.stk is not clean"; fi   # a note tells of correct practice too
  run 0 build "$pattern" --out "written/$name"
  [ -d "$examples/$name" ] || fail "nothing written from $name.stk is kept in examples/$name"
  diff -r "$examples/$name" "written/$name" >out 2>err || fail "examples/$name is not what $name.stk gives"
done

# Each of the kept folders has its source.
for folder in "$examples"/*/; do
  name=$(basename "$folder")
  case $name in house | mistakes | out) continue ;; esac
  [ -f "$examples/$name.stk" ] || fail "examples/$name has no source"
done

# Blocks of README.md marked `text from FILE` are a part of FILE; `text check FILE` is all that `check FILE` says.
awk '
  /^```/ {
    if (open) { open = 0; close(file) } else if ($1 == "```text" && NF == 3) { open = 1; file = "block" ++n; print $2, $3 >"blocks"; printf "" >file }
    next
  }
  open { print >file }
' "$source_folder/README.md"
n=0
while read -r how file; do
  n=$((n + 1))
  case $how in
    from)
      # A block is found if the file, cut at the place where its first lines stand, begins with it.
      lines=$(wc -l <"block$n")
      found=
      grep -nxF -- "$(head -1 "block$n")" "$source_folder/$file" | cut -d: -f1 >starts
      while read -r start; do
        tail -n "+$start" "$source_folder/$file" | head -n "$lines" | cmp -s - "block$n" && found=yes
      done <starts
      [ -n "$found" ] || fail "README.md shows a part of $file that is not in it"
      ;;
    check)
      (cd "$source_folder" && "$stockinger" check "$file") >said 2>&1
      diff said "block$n" >out 2>err || fail "README.md shows other findings of $file than there are"
      ;;
    *) fail "README.md has a block \`text $how\`" ;;
  esac
done <blocks
[ "$n" -ge 3 ] || fail "README.md shows no part of the examples"
finish
