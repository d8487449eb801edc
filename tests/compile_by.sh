#!/bin/sh
# compile_by.sh COMPILER [CCACHE] OTHER ARGUMENT...: that compiler in the place of the other one, as
# a launcher of CMake, which knows one compiler for a whole tree.
set -eu
by=$1
shift
with=
case $1 in
  *ccache)
    with=$1
    shift
    ;;
esac
shift
# clang would read an older precompiled header in the place of what the new one is made from.
for argument in "$@"; do
  case $argument in
    *.gch) rm -f "$argument" ;;
  esac
done
exec $with "$by" "$@"
