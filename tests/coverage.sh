#!/bin/sh
# Says how much of engine/ the tests reach, and fails below 95 % of lines or 90 % of branches.
#   sh tests/coverage.sh              by file: build/coverage.txt, and build/branches.txt
# Branches that only an exception takes are left out, and those on lines without code of their own,
# as a closing brace, where the compiler puts away what the line did not make.
set -eu
cd "$(dirname "$0")/.."
mkdir -p build
log=build/coverage.log

{
  sh tests/packages.sh build test cover && COVERAGE=ON sh tests/build.sh counted_tests &&
    find build -name '*.gcda' -delete &&
    ctest --test-dir build --no-tests=error --output-on-failure --parallel "${JOBS:-$(nproc)}" \
      -L counted
} >"$log" 2>&1 || {
  cat "$log" >&2
  echo 'coverage.sh: failed' >&2
  exit 1
}

report() {
  gcovr --root . --filter engine/ --exclude-throw-branches --exclude-unreachable-branches \
    -j "$(nproc)" "$@" build
}
report --txt build/coverage.txt
report --branches --txt build/branches.txt
echo "coverage.sh: lines    $(tail -n 2 build/coverage.txt | head -n 1)"
echo "coverage.sh: branches $(tail -n 2 build/branches.txt | head -n 1)"
report --fail-under-line 95 --fail-under-branch 90 --txt /dev/null
