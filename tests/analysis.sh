#!/bin/sh
# Reads engine/ and cli/ by clang-tidy (.clang-tidy says what for) and by cppcheck; a finding fails.
#   sh tests/analysis.sh                 half an hour; clang-tidy reads a room at a time
#   sh tests/analysis.sh cppcheck        one of the two: `tidy` or `cppcheck`
set -eu
cd "$(dirname "$0")/.."
jobs=${JOBS:-$(nproc)}
which=${1:-tidy cppcheck}
sh tests/packages.sh build test analysis
mkdir -p build-analysis

tidy() {
  cmake -S . -B build-analysis -DKARTWRIGHT_TESTS=OFF -DCMAKE_UNITY_BUILD=ON \
    -DCMAKE_DISABLE_PRECOMPILE_HEADERS=ON >build-analysis/cmake.log
  # Names the unity sources, and makes what is generated.
  cmake --build build-analysis --parallel "$jobs" --target kartwright_frozen describe_version \
    >>build-analysis/cmake.log
  echo 'analysis.sh: clang-tidy'
  find build-analysis -name 'unity_*.cxx' | LC_ALL=C sort |
    xargs -P "$jobs" -n 1 clang-tidy --quiet -p build-analysis \
      --checks=-bugprone-suspicious-include --header-filter='/(engine|cli)/.*[.](h|cc)$' \
      >build-analysis/tidy.log 2>build-analysis/tidy.err || {
    grep -E '(warning|error):' build-analysis/tidy.log | sort -u >&2
    grep -E 'error:' build-analysis/tidy.err >&2 || true
    return 1
  }
}

check() {
  echo 'analysis.sh: cppcheck'
  cppcheck --quiet -j "$jobs" --std=c++20 --language=c++ --inline-suppr --error-exitcode=1 \
    --enable=warning,performance,portability --suppressions-list=tests/cppcheck.txt \
    --template='{file}:{line}: {severity}: {message} [{id}]' -I . engine cli
}

for each in $which; do
  case $each in
    tidy) tidy ;;
    cppcheck) check ;;
    *)
      echo "analysis.sh: \`$each\`: there are tidy and cppcheck" >&2
      exit 2
      ;;
  esac || {
    echo "analysis.sh: failed: $each" >&2
    exit 1
  }
done
echo 'analysis.sh: clean'
