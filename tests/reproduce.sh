#!/bin/sh
# Builds this commit by gcc and by clang, at -O0 and at -O2, and holds all four to the same output.
#   sh tests/reproduce.sh        some twenty minutes; the builds stay in build-reproduce/
set -eu
cd "$(dirname "$0")/.."
root=$(pwd)
jobs=${JOBS:-$(nproc)}
mkdir -p build-reproduce
sh tests/packages.sh build test fuzz

# build NAME COMPILER OPTION: the program, at build-reproduce/NAME/kartwright.
build() {
  echo "reproduce.sh: $1"
  {
    cmake -S . -B "build-reproduce/$1" -DKARTWRIGHT_TESTS=OFF -DCMAKE_UNITY_BUILD=ON \
      -DCMAKE_BUILD_TYPE=Plain -DCMAKE_CXX_COMPILER="$2" \
      -DCMAKE_CXX_FLAGS="$3" && cmake --build "build-reproduce/$1" --parallel "$jobs" \
      --target kartwright
  } >"build-reproduce/$1.log" 2>&1 || {
    cat "build-reproduce/$1.log" >&2
    echo "reproduce.sh: failed: $1" >&2
    exit 1
  }
}

build gcc-O0 g++ -O0
build gcc-O2 g++ -O2
build clang-O0 clang++ -O0
build clang-O2 clang++ -O2

mkdir -p build-reproduce/locale
for locale in de_DE tr_TR; do
  folder=build-reproduce/locale/$locale.UTF-8
  [ -d "$folder" ] || localedef -i $locale -f UTF-8 "$folder" || [ -d "$folder" ]
done
export LOCPATH="$root/build-reproduce/locale"
set --
for name in gcc-O0 gcc-O2 clang-O0 clang-O2; do
  set -- "$@" "$name=build-reproduce/$name/kartwright"
done
exec python3 -B tests/reproduce.py "$@"
