#!/bin/sh
# Builds as it ships and prints one table of what everything takes, beside peers.
#   sh tests/bench.sh [NAME...]      about eight minutes: all lines, or those of the names: chaining
#                                    choice yaml posterior regression cold batch commands
#   sh tests/bench.sh --quick        under a minute once it is built: fewer goes, smaller sizes
set -eu
cd "$(dirname "$0")/.."
mkdir -p build
log=build/bench.log

build() {
  sh tests/packages.sh build test fuzz && BENCH=ON sh tests/build.sh table
}

echo "bench.sh: building first; see $log" >&2
if ! build >"$log" 2>&1; then
  cat "$log" >&2
  echo "bench.sh: the build failed; the above is $log" >&2
  exit 1
fi
exec build/table "$@"
