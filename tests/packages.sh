# shellcheck shell=sh disable=SC2034
# What the build and the tests need from the system, and installing what is missing. Sourced by run.sh scripts.

# Package, and a file that shows it is there.
packages='
g++:/usr/bin/g++
cmake:/usr/bin/cmake
ninja-build:/usr/bin/ninja
ccache:/usr/bin/ccache
tao-pegtl-dev:/usr/include/tao/pegtl.hpp
libfmt-dev:/usr/include/fmt/format.h
libcli11-dev:/usr/include/CLI/CLI.hpp
nlohmann-json3-dev:/usr/include/nlohmann/json.hpp
libboost-dev:/usr/include/boost/rational.hpp
libutf8proc-dev:/usr/include/utf8proc.h
'
test_packages='
catch2:/usr/include/catch2/catch.hpp
libbenchmark-dev:/usr/include/benchmark/benchmark.h
libgmp-dev:/usr/include/gmpxx.h
cmark:/usr/bin/cmark
cmark-gfm:/usr/bin/cmark-gfm
librsvg2-bin:/usr/bin/rsvg-convert
libxml2-utils:/usr/bin/xmllint
python3:/usr/bin/python3
bc:/usr/bin/bc
units:/usr/bin/units
vim:/usr/bin/vim
nodejs:/usr/bin/node
npm:/usr/bin/npm
'

# install_missing LIST: apt-get install for those that are not there, and nothing at all if none is missing.
install_missing() {
  missing=
  for entry in $1; do
    package=${entry%%:*}
    file=${entry#*:}
    # A header of a multi-architecture package lies one folder further down.
    [ -e "$file" ] || ls /usr/include/*/"${file#/usr/include/}" >/dev/null 2>&1 || missing="$missing $package"
  done
  [ -n "$missing" ] || return 0
  if ! command -v apt-get >/dev/null 2>&1; then
    echo "These are needed and cannot be installed here, for there is no apt-get:$missing" >&2
    return 1
  fi
  as_root=
  if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null 2>&1; then
      echo "These are needed; install them as root:$missing" >&2
      return 1
    fi
    as_root=sudo
  fi
  echo "Installing:$missing"
  # shellcheck disable=SC2086  # the list is words
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends $missing >/dev/null 2>&1 ||
    { $as_root apt-get update >/dev/null &&
      $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends $missing >/dev/null; }
}
