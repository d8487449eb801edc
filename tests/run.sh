#!/bin/sh
# Builds and tests everything twice: under the sanitizers, and as it ships, warnings being errors.
#   sh tests/run.sh      JOBS=1 sh tests/run.sh      stops at the first step that fails
#   WATCH=all sh tests/run.sh      the sanitizers watch what tests/once.txt names too, and all dice
#   WATCHED_BY= sh tests/run.sh      what the sanitizers watch is compiled by gcc, not by clang
set -eu
cd "$(dirname "$0")/.."
jobs=${JOBS:-$(nproc)}
mkdir -p build
# A test beside another program must not be left out because that program is not here.
export KARTWRIGHT_CLIPS=${KARTWRIGHT_CLIPS:-required}

fail() {
  echo "run.sh: failed: $1" >&2
  exit 1
}

# quietly WHAT LOG COMMAND...: the command's output goes to the log, and is shown only if it fails.
quietly() {
  what=$1 log=$2
  shift 2
  echo "run.sh: $what"
  "$@" >"$log" 2>&1 || {
    cat "$log" >&2
    fail "$what"
  }
}

# Other versions of clang-format lay some lines out differently, so only 14 is asked.
check_format() {
  for tool in clang-format-14 clang-format; do
    case $("$tool" --version 2>/dev/null) in
      *'version 14.'*)
        find engine cli tests -name '*.h' -o -name '*.cc' | LC_ALL=C sort |
          xargs "$tool" --dry-run -Werror
        return
        ;;
    esac
  done
  echo "run.sh: no clang-format 14 here, so the formatting is not checked"
}

# The locale whose decimal comma must change nothing. localedef may warn and still do its work.
make_locale() {
  mkdir -p build/locale
  [ -d build/locale/de_DE.UTF-8 ] || localedef -i de_DE -f UTF-8 build/locale/de_DE.UTF-8 ||
    [ -d build/locale/de_DE.UTF-8 ]
}

quietly 'packages' build/packages.log sh tests/packages.sh build test fuzz faults
echo 'run.sh: formatting'
check_format || fail 'formatting: run clang-format -i on the files above'
quietly 'a locale with a decimal comma' build/locale.log make_locale
quietly 'build, warnings are errors, and once more under sanitizers' build/build.log \
  env JOBS="$jobs" sh tests/build.sh
quietly 'tests under sanitizers' build/watched.log \
  ctest --test-dir build --no-tests=error --output-on-failure --parallel "$jobs" -L watched
tail -n 4 build/watched.log
echo 'run.sh: tests'
ctest --test-dir build --no-tests=error --output-on-failure --parallel "$jobs" \
  -LE 'watched|counted' || fail 'tests'
