#!/bin/sh
# Fuzzes every target: builds the fuzzers with clang, replays the corpora, then tries new inputs.
#   sh tests/fuzz.sh [TARGET...]                  20 seconds each, one on each core at a time
#   sh tests/fuzz.sh --seconds 600 [TARGET...]    longer; 0 replays the corpora alone
#   sh tests/fuzz.sh --seed 1                     the same inputs each time, as CI has it
#   sh tests/fuzz.sh --coverage [TARGET...]       which lines the corpora reach, as they have grown
#   sh tests/fuzz.sh --target kart FILE...        those inputs alone: what became of a find
# What it finds, and the corpora as they grow, stay in build/fuzz/, never in the repository unasked.
set -eu
cd "$(dirname "$0")/.."
root=$(pwd)
all='debrief kart laps line log rules'
seconds=20 coverage= one= seed=0
jobs=${JOBS:-$(nproc)}
while [ $# -gt 0 ]; do
  case $1 in
    --seconds) seconds=$2 && shift 2 ;;
    --seed) seed=$2 && shift 2 ;;
    --coverage) coverage=1 && shift ;;
    --target) one=$2 && shift 2 && break ;;
    --*) echo "fuzz.sh: there is no $1" >&2 && exit 2 ;;
    *) break ;;
  esac
done
[ -z "$one" ] || all=$one
if [ -z "$one" ] && [ $# -gt 0 ]; then all=$*; fi
for target in $all; do
  [ -d "tests/fuzz/corpus/$target" ] || {
    echo "fuzz.sh: there is no target $target" >&2
    exit 2
  }
done

# quietly WHAT COMMAND...: the command's output is shown only if it fails.
quietly() {
  what=$1
  shift
  echo "fuzz.sh: $what"
  "$@" >"$build/last.log" 2>&1 || {
    cat "$build/last.log" >&2
    echo "fuzz.sh: failed: $what" >&2
    exit 1
  }
}

# compile: the one program of all fuzzers, and a name of it for each target.
compile() {
  sh tests/build.sh fuzz && for target in $all; do ln -sf fuzz "$build/$target"; done
}

build=$root/build/fuzz
mkdir -p "$build"
quietly 'packages' sh tests/packages.sh build test fuzz
if [ -n "$coverage" ]; then
  quietly 'packages to count by' sh tests/packages.sh cover
  export COVERAGE=ON
  quietly 'build' sh tests/build.sh fuzz_tests_counted
else
  quietly 'build' compile
fi

# Logs are files; where they can be in memory the disk is spared.
scratch=$(mktemp -d "$([ -w /dev/shm ] && echo /dev/shm || echo /tmp)/fuzz-XXXXXX")
trap 'rm -rf "$scratch"' EXIT
trap 'exit 1' INT TERM
export TMPDIR="$scratch"
ASAN_OPTIONS=detect_stack_use_after_return=0:allocator_may_return_null=1:malloc_context_size=5
export ASAN_OPTIONS
# On a busy machine an input that is quick takes a hundred times as long.
limits='-timeout=60 -rss_limit_mb=1024'

# fuzz_one TARGET: the corpora and the finds first, then new inputs for so many seconds.
fuzz_one() {
  found=$build/finds/$1 grown=$build/corpus/$1 log=$build/$1.log
  mkdir -p "$found" "$grown" "tests/fuzz/finds/$1"
  # shellcheck disable=SC2086  # the limits are meant to be split
  "$build/$1" $limits -runs=0 -artifact_prefix="$found/" "tests/fuzz/corpus/$1" \
    "tests/fuzz/finds/$1" >"$log" 2>&1 &&
    { [ "$seconds" -eq 0 ] ||
      "$build/$1" $limits -max_total_time="$seconds" -seed="$seed" -use_value_profile=1 \
        -artifact_prefix="$found/" "$grown" "tests/fuzz/corpus/$1" "tests/fuzz/finds/$1" \
        >"$log" 2>&1; } || {
    { grep -E 'broken:|ERROR:|SUMMARY:|runtime error|Test unit written|deadly' "$log" ||
      tail -n 20 "$log"; } | sed "s/^/$1: /" >&2
    echo "$1: found something; the whole of it is in $log" >&2
    return 1
  }
  runs=$(sed -n 's/^#\([0-9]*\)[[:space:]]*DONE.*/\1/p' "$log" | tail -n 1)
  edges=$(sed -n 's/.* cov: \([0-9]*\) .*/\1/p' "$log" | tail -n 1)
  printf '%-8s %9d executions %7d/s %7d edges\n' "$1" "${runs:-0}" \
    "$((${runs:-0} / (seconds > 0 ? seconds : 1)))" "${edges:-0}"
}

# cover_one TARGET: lines of the engine that the corpora and the finds of a target run through.
cover_one() {
  find build -name '*.gcda' -delete
  KARTWRIGHT_GROWN=$build/corpus build/tests/fuzz_tests_counted \
    --gtest_filter="*Replay.*/$1" >"$build/$1.log" 2>&1
  gcovr --root . --filter engine/ --exclude-throw-branches --exclude-unreachable-branches \
    -j "$jobs" --txt "$build/$1.txt" build
  awk -v t="$1" '/^TOTAL/ {printf "%-8s %6d of %6d lines\n", t, $3, $2}' "$build/$1.txt"
}

if [ -n "$one" ]; then
  mkdir -p "$build/finds/$one"
  # shellcheck disable=SC2086  # the limits are meant to be split
  "$build/$one" $limits -artifact_prefix="$build/finds/$one/" "$@"
elif [ -n "$coverage" ]; then
  for target in $all; do cover_one "$target"; done
fi
[ -z "$one$coverage" ] || exit 0

echo "fuzz.sh: $seconds s for each target"
failed=0 running=
for target in $all; do
  # shellcheck disable=SC2086  # process ids
  if [ "$(echo $running | wc -w)" -ge "$jobs" ]; then
    first=${running%% *}
    wait "$first" || failed=1
    running=${running#"$first"}
    running=${running# }
  fi
  fuzz_one "$target" &
  running="${running:+$running }$!"
done
for pid in $running; do wait "$pid" || failed=1; done
exit "$failed"
