#!/bin/sh
# Builds the program where it is not built yet, and runs its main job on a debrief from scenarios/.
#   sh cli/demo.sh [options of `advise`]      what the build says goes to build/build.log
set -eu
cd "$(dirname "$0")/.."

mkdir -p build
log=build/build.log

build() {
  sh tests/packages.sh build &&
    cmake -S . -B build -DCMAKE_UNITY_BUILD=ON &&
    cmake --build build --target kartwright --parallel "$(nproc)"
}

[ -x build/kartwright ] || echo "demo.sh: building first, which takes a while; see $log" >&2
if ! build >"$log" 2>&1; then
  cat "$log" >&2
  echo "demo.sh: the build failed; the above is $log" >&2
  exit 1
fi
exec build/kartwright advise --debrief scenarios/harbour/heat-2.yaml "$@"
