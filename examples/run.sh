#!/bin/sh
# Builds the program and runs the main job: every pattern of this folder is checked, and its instructions, Markdown and
# charts are written for all its sizes and both machines.
set -eu
cd "$(dirname "$0")/.."
# shellcheck source=tests/packages.sh
. tests/packages.sh
install_missing "$packages"

cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release -DSTK_TESTS=OFF >/dev/null
cmake --build build -j 2 --target stockinger

rm -rf examples/out
for pattern in examples/*.stk; do
  name=$(basename "$pattern" .stk)
  echo
  echo "== $pattern"
  build/stockinger check "$pattern"
  build/stockinger build "$pattern" --out "examples/out/$name"
done

echo
echo "Look at examples/out: the .txt files are the instructions, the .md files the same as Markdown,"
echo "charts/ has the charts as text and as pictures (SVG, any browser shows them)."
echo "The program is build/stockinger; try: build/stockinger --help"
