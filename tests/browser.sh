#!/bin/sh
# Opens every sheet (`--format html`) in a headless browser and says what is wrong with it.
#   sh tests/browser.sh [NAME...]               all sheets, or those whose names begin so
#   sh tests/browser.sh --pictures FOLDER       pictures of them instead: phone, desk and paper
#   KARTWRIGHT=path sh tests/browser.sh         the program that is there, without building one
set -eu
cd "$(dirname "$0")/.."
root=$(pwd)
mkdir -p build

# quietly LOG COMMAND...: the command's output goes to the log, and is shown only if it fails.
quietly() {
  log=$1
  shift
  "$@" >"$log" 2>&1 || {
    cat "$log" >&2
    echo "browser.sh: failed: $*" >&2
    exit 1
  }
}

program=${KARTWRIGHT:-}
if [ -n "$program" ]; then
  quietly build/packages-browser.log sh tests/packages.sh browser
else
  echo 'browser.sh: packages and the program'
  quietly build/packages-browser.log sh tests/packages.sh build test browser
  quietly build/build-browser.log sh tests/build.sh kartwright
  program=$root/build/kartwright
fi
case $program in
  /*) ;;
  *) program=$root/$program ;;
esac

# The distribution's Python is the one that the packages are for.
exec /usr/bin/python3 -B tests/browser/run.py "$program" "$@"
