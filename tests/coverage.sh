#!/bin/sh
# Says how much of engine/ the tests reach; fails below 95 % of lines or 90 % of branches.
#   sh tests/coverage.sh              by file: build/coverage.txt, and build/branches.txt
#   sh tests/coverage.sh report       of tests that have run already in such a build
# Branches that only an exception takes are left out, and those on lines without code of their own,
# as a closing brace, where the compiler puts away what the line did not make. Counted are the
# suites unit, published, scenario and fuzz: what only a throw of the dice reaches does not count.
set -eu
cd "$(dirname "$0")/.."
mkdir -p build

count() {
  sh tests/packages.sh build test fuzz cover &&
    COVERAGE=ON sh tests/build.sh counted_tests &&
    find build -name '*.gcda' -delete &&
    ctest --test-dir build --no-tests=error --output-on-failure --parallel "${JOBS:-$(nproc)}" \
      -L counted
}

[ "${1:-}" = report ] || count >build/coverage.log 2>&1 || {
  cat build/coverage.log >&2
  echo 'coverage.sh: failed' >&2
  exit 1
}
gcovr --root . --filter engine/ --exclude-throw-branches --exclude-unreachable-branches \
  -j "$(nproc)" --json build/coverage.json --txt build/coverage.txt build
echo 'coverage.sh: of engine/ the tests reach'
gcovr --root . -a build/coverage.json --branches --txt build/branches.txt --print-summary \
  --fail-under-line 95 --fail-under-branch 90
