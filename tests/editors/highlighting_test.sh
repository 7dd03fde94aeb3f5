#!/bin/sh
# Keeps the highlighting of the editors in step with the grammar: every token of every source, as the parser takes it,
# against the colour that the editor's own engine gives it.
#
#   sh highlighting_test.sh vim|textmate TOKEN_CLASSES REPOSITORY WORK_FOLDER
set -eu
engine=$1
classes=$2
repository=$3
shared=$4
work=$shared/$engine
rm -rf "$work"
mkdir -p "$work"

# Words of the language: what the grammar's headers name as words. Names may be spelled like them.
grep -ohE '(word|verb_of)<[^>]*>' "$repository"/grammar/*.hpp | grep -oE '"[A-Za-z-]+"' | tr -d '"' | sort -u >"$work/words"
grep -oE '"[a-z]+"sv' "$repository/grammar/words.hpp" | sed 's/"sv//; s/"//' | sort -u >>"$work/words"

number=0
: >"$work/failures"
set --
for source in $(find "$repository/tests/sources" "$repository/stdlib" "$repository/examples" -name '*.stk' | sort); do
  number=$((number + 1))
  "$classes" "$source" >"$work/$number.tokens"
  set -- "$@" "$source" "$work/$number.tokens"
  if [ "$engine" = vim ]; then
    {
      echo "set runtimepath^=$repository/editors/vim"
      echo "let g:source = '$source'"
      echo "let g:tokens = '$work/$number.tokens'"
      echo "let g:words = readfile('$work/words')"
      echo "let g:report = '$work/$number.report'"
      echo "source $repository/tests/editors/vim_test.vim"
    } >"$work/$number.vim"
    vim -Nu NONE -es --not-a-term -c "source $work/$number.vim" -c 'qall!' </dev/null || true
    if [ ! -f "$work/$number.report" ]; then
      echo "$source: Vim did not finish" >&2
      exit 1
    fi
    cat "$work/$number.report" >>"$work/failures"
  fi
done
if [ "$number" -lt 10 ]; then
  echo "only $number sources were found" >&2
  exit 1
fi

if [ "$engine" = textmate ]; then
  cp "$repository/tests/editors/package.json" "$repository/tests/editors/textmate_test.js" "$work/"
  if [ ! -d "$shared/node_modules/vscode-textmate" ]; then
    cp "$repository/tests/editors/package.json" "$shared/"
    (cd "$shared" && npm install --silent --no-audit --no-fund --ignore-scripts >/dev/null)
  fi
  exec node "$work/textmate_test.js" "$repository/editors/vscode/syntaxes/stockinger.tmLanguage.json" "$work/words" "$@"
fi

if [ -s "$work/failures" ]; then
  cat "$work/failures" >&2
  exit 1
fi
