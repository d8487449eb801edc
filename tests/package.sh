#!/bin/sh
# Builds the Debian package, installs it into a clean Debian 12, does the main job there, removes
# it, and sees that nothing is left behind. Called by hand, before a release.
#   sh tests/package.sh      needs root, mmdebstrap, and Debian's packages to fetch from
#   JOBS=1 sh tests/package.sh
set -eu
cd "$(dirname "$0")/.."
build=${BUILD:-build-package}
jobs=${JOBS:-$(nproc)}

fail() {
  echo "package.sh: failed: $1" >&2
  exit 1
}

[ "$(id -u)" -eq 0 ] || fail 'a clean root is made and entered as root: run it as root or by sudo'
for tool in cmake dpkg-deb dpkg-shlibdeps mmdebstrap strip; do
  command -v "$tool" >/dev/null || fail "\`$tool\` is not installed"
done

echo 'package.sh: the package'
mkdir -p "$build"
{
  cmake -S . -B "$build" -DCMAKE_BUILD_TYPE=Release -DCMAKE_INSTALL_PREFIX=/usr \
    -DKARTWRIGHT_TESTS=OFF -DCMAKE_UNITY_BUILD=ON &&
    cmake --build "$build" --parallel "$jobs" &&
    rm -f "$build"/kartwright_*.deb && (umask 022 && cd "$build" && cpack -G DEB)
} >"$build/package.log" 2>&1 || {
  tail -n 30 "$build/package.log" >&2
  fail 'the package'
}
package=$(echo "$build"/kartwright_*.deb)
[ -f "$package" ] || fail 'there is no package'
dpkg-deb --field "$package" Package Version Architecture Depends Installed-Size
echo "package.sh: $(stat -c %s "$package") bytes in $package"
if command -v lintian >/dev/null; then
  # No real person stands behind the address, and Debian has no bug that asks for the package.
  lintian --allow-root --fail-on error,warning --suppress-tags \
    bogus-mail-host,bogus-mail-host-in-debian-changelog,initial-upload-closes-no-bugs \
    "$package" || fail 'lintian found something'
fi

# A clean Debian 12 is kept as an archive, and every run unpacks it anew.
clean=${ROOT_ARCHIVE:-$build/bookworm.tar}
if [ ! -f "$clean" ]; then
  echo 'package.sh: a clean Debian 12'
  mmdebstrap --variant=minbase --format=tar bookworm "$clean.new" >"$build/root.log" 2>&1 || {
    tail -n 20 "$build/root.log" >&2
    fail 'a clean Debian 12'
  }
  mv "$clean.new" "$clean"
fi
root=$(mktemp -d)
trap 'rm -rf "$root"' EXIT
tar -C "$root" -xf "$clean" --exclude=./dev/*
mkdir -p "$root/dev"
# Where no device can be made, a plain file does: only output is thrown away.
null=$root/dev/null
if ! { mknod -m 666 "$null" c 1 3 && echo >"$null"; } 2>/dev/null; then
  rm -f "$null"
  echo >"$null"
  chmod 666 "$null"
fi
[ ! -f /etc/resolv.conf ] || cp /etc/resolv.conf "$root/etc/resolv.conf"
cp "$package" "$root/kartwright.deb"

inside() {
  chroot "$root" /usr/bin/env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin LC_ALL=C.UTF-8 \
    DEBIAN_FRONTEND=noninteractive "$@"
}

# quietly WHAT COMMAND...: shown only if it fails
quietly() {
  what=$1
  shift
  echo "package.sh: $what"
  inside "$@" >"$build/root.log" 2>&1 || {
    tail -n 20 "$build/root.log" >&2
    fail "$what"
  }
}

quietly 'the index of packages' apt-get update
quietly 'installing' apt-get install -y --no-install-recommends /kartwright.deb

echo 'package.sh: the main job'
# shows WORD COMMAND...: the command's answer has the word in it
shows() {
  word=$1
  shift
  answer=$(inside "$@") || fail "$*"
  case $answer in *"$word"*) ;; *) fail "$*: no \`$word\` in the answer" ;; esac
}
data=/usr/share/kartwright
shows 'kartwright ' kartwright --version
shows CHANGE kartwright advise --track rubbered-in --said 'pushes going in, hops hard'
shows HEARD kartwright advise --debrief $data/scenarios/harbour/heat-2.yaml
shows 'rear-width' kartwright start --example
shows hop kartwright explain hop
shows 'in the pits' kartwright --help
shows 'rule' kartwright rules list --rules $data/rules
for command in '' -advise -check -apply -log -weigh -whatif -plan -compare -learned -drill \
  -explain -start -rules; do
  gzip -dc "$root/usr/share/man/man1/kartwright$command.1.gz" | grep -q '^\.SH NAME' ||
    fail "the manual of kartwright$command"
done
for file in bash-completion/completions/kartwright fish/vendor_completions.d/kartwright.fish \
  zsh/vendor-completions/_kartwright doc/kartwright/copyright doc/kartwright/README.md; do
  [ -s "$root/usr/share/$file" ] || fail "$file is not there"
done

inside dpkg -L kartwright >"$build/installed.txt"
quietly 'removing' apt-get purge -y kartwright
while read -r path; do
  case $path in /.) continue ;; esac
  if [ -d "$root$path" ]; then
    inside dpkg -S "$path" >/dev/null 2>&1 || fail "$path is left behind"
  elif [ -e "$root$path" ] || [ -L "$root$path" ]; then
    fail "$path is left behind"
  fi
done <"$build/installed.txt"
rm "$root/kartwright.deb"
left=$(cd "$root" && find . -name '*kartwright*' ! -path './var/cache/*')
[ -z "$left" ] || fail "left behind: $left"
echo 'package.sh: installed, did its job, and is gone without a trace'
