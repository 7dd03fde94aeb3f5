#!/bin/sh
# Builds everything and runs every test, then once more under sanitizers with warnings as errors.
#
#   sh tests/run.sh                     all
#   sh tests/run.sh --fast              without the sanitized build
#   sh tests/run.sh --bench             the benchmarks too, after the tests
#   sh tests/run.sh --bless [FILTER]    write the expected outputs of tests/snapshots anew, those whose path has FILTER in
#                                       it; read the printed differences before you keep them
set -eu
cd "$(dirname "$0")/.."
# shellcheck source=tests/packages.sh
. tests/packages.sh

sanitized=yes
bench=OFF
bless=
filter=
while [ $# -gt 0 ]; do
  case $1 in
    --fast) sanitized= ;;
    --bench) bench=ON ;;
    --bless)
      bless=yes
      if [ $# -gt 1 ]; then
        filter=$2
        shift
      fi
      ;;
    *)
      echo "tests/run.sh: there is no option $1; see the head of the file" >&2
      exit 2
      ;;
  esac
  shift
done
if [ -n "$bless" ] && [ -n "${CI:-}" ]; then
  echo "tests/run.sh: --bless is refused where CI is set" >&2
  exit 2
fi

install_missing "$packages $test_packages"

# Release is the program that people try; the tests run against it, and then against a sanitized one.
cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release -DSTK_TESTS=ON -DSTK_BENCH=$bench >/dev/null

if [ -n "$bless" ]; then
  cmake --build build -j 2 --target whole
  STK_BLESS=1 STK_FILTER=$filter build/whole 'snapshots*'
  exit
fi

cmake --build build -j 2
if [ -n "$sanitized" ]; then
  ctest --test-dir build --output-on-failure -j 2
  cmake -S . -B build-sanitized -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS_DEBUG='-O1 -g1' \
    '-DSTK_SANITIZE=address,undefined' -DSTK_WERROR=ON -DSTK_TESTS=ON >/dev/null
  cmake --build build-sanitized -j 2
  ctest --test-dir build-sanitized --output-on-failure -j 2
else
  ctest --test-dir build --output-on-failure -j 2
fi
if [ "$bench" = ON ]; then
  build/bench
fi
