#!/bin/sh
# Makes files, streams and the machine fail around the program, and says what it does not stand.
#   sh tests/faults.sh [PART...]             all parts, or calls, streams, limits, surroundings...
#   sh tests/faults.sh --short               of each part what takes a few seconds
#   sh tests/faults.sh calls --only apply    one part, of the commands that begin so
#   KARTWRIGHT=path sh tests/faults.sh       the program that is there, without building one
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
    echo "faults.sh: failed: $*" >&2
    exit 1
  }
}

program=${KARTWRIGHT:-}
if [ -n "$program" ]; then
  quietly build/packages-faults.log sh tests/packages.sh faults
else
  echo 'faults.sh: packages and the program'
  quietly build/packages-faults.log sh tests/packages.sh build test faults
  quietly build/build-faults.log sh tests/build.sh kartwright
  program=$root/build/kartwright
fi
case $program in
  /*) ;;
  *) program=$root/$program ;;
esac

library=$root/build/fail.so
quietly build/fail.log gcc -shared -fPIC -O1 -std=gnu11 -Wall -Wextra -Werror -o "$library" \
  tests/faults/fail.c -ldl
exec /usr/bin/python3 -B tests/faults/run.py "$program" "$library" "$@"
