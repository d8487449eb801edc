#!/bin/sh
# Installs the packages that are missing on Debian 12 or Ubuntu 24.04; their one list is here.
#   sh tests/packages.sh build      to build      sh tests/packages.sh build test      to test too
#   sh tests/packages.sh build package            to make and prove a Debian package
#   sh tests/packages.sh browser    to look at sheets in a browser (Debian's names)
#   sh tests/packages.sh build test fuzz faults cover mutants analysis    for the longer proofs,
#                                   each named as the script that asks for it

# shellcheck disable=SC2086  # the lists of packages are meant to be split
set -eu

build='g++ cmake make libfmt-dev libyaml-cpp-dev libeigen3-dev libcli11-dev libspdlog-dev
  libboost-dev nlohmann-json3-dev rapidjson-dev libsqlitecpp-dev libsqlite3-dev'
test='libgtest-dev libgmock-dev librapidcheck-dev libgsl-dev libbenchmark-dev locales clang-format
  clips libglpk-dev libvalijson-dev fish zsh mandoc git ninja-build'
package='binutils dpkg-dev gzip lintian mmdebstrap'
browser='chromium chromium-driver python3-selenium python3-html5lib poppler-utils fonts-dejavu-core'
fuzz='clang lld'
cover='gcovr'
faults='strace gcc python3'
mutants='python3 python3-clang'
analysis='clang clang-tidy cppcheck'

wanted=
for group in "$@"; do
  case $group in
    build) wanted="$wanted $build" ;;
    test) wanted="$wanted $test" ;;
    package) wanted="$wanted $package" ;;
    browser) wanted="$wanted $browser" ;;
    fuzz) wanted="$wanted $fuzz" ;;
    cover) wanted="$wanted $cover" ;;
    faults) wanted="$wanted $faults" ;;
    mutants) wanted="$wanted $mutants" ;;
    analysis) wanted="$wanted $analysis" ;;
    *)
      echo "packages.sh: no group \`$group\`; the head of this file names them" >&2
      exit 2
      ;;
  esac
done

if ! command -v dpkg-query >/dev/null; then
  echo "packages.sh: this system has no dpkg; what is needed, by its Debian names:" $wanted >&2
  exit 0
fi

is_installed() {
  [ "$(dpkg-query -W -f '${db:Status-Status}' "$1" 2>/dev/null)" = installed ]
}

missing=
for package in $wanted; do
  is_installed "$package" || missing="$missing $package"
done
[ -n "$missing" ] || exit 0

as_root=
if [ "$(id -u)" -ne 0 ]; then
  if ! command -v sudo >/dev/null; then
    echo "packages.sh: neither root nor sudo, so these are not installed:$missing" >&2
    exit 0  # they may be here by other means; CMake names what it does not find
  fi
  as_root=sudo
fi

echo "packages.sh: installing$missing"
$as_root apt-get update
$as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends $missing
