#!/bin/sh
# Makes slips in the program, one at a time, and sees whether anything notices.
#   sh tests/mutants.sh rules [WORD...]     in the rules that come with it: all, or those so named
#   sh tests/mutants.sh code [...]          in its code
set -eu
cd "$(dirname "$0")/.."
what=${1:-}
[ $# -eq 0 ] || shift

build_rule_mutants() {
  sh tests/packages.sh build
  cmake -S . -B build-mutants -DKARTWRIGHT_TESTS=OFF -DKARTWRIGHT_MUTANTS=ON \
    -DCMAKE_BUILD_TYPE=Release -DCMAKE_UNITY_BUILD=ON
  cmake --build build-mutants --parallel "${JOBS:-$(nproc)}" --target rule_mutants
}

case $what in
  rules)
    mkdir -p build-mutants
    build_rule_mutants >build-mutants/build.log 2>&1 || {
      cat build-mutants/build.log >&2
      exit 1
    }
    exec build-mutants/tests/rule_mutants "$@"
    ;;
  code) exec python3 tests/mutants/code.py "$@" ;;
  *)
    echo 'mutants.sh: rules or code?' >&2
    exit 2
    ;;
esac
