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
# clang has none of gcc's parameters, and would read an older precompiled header in the place of
# what the new one is made from.
for argument in "$@"; do
  shift
  case $argument in
    --param=*) continue ;;
    *.gch) rm -f "$argument" ;;
  esac
  set -- "$@" "$argument"
done
exec $with "$by" "$@"
