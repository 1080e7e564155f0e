#!/usr/bin/env bash
# Makes the .deb, looks into it, installs it below a folder, uses it there, and removes it again.
#   package.sh BUILD [--debian]
# --debian: also into a Debian of its own (by debootstrap, which takes the network, root and some
# minutes), with what it depends on.
set -euo pipefail

build=$(realpath "$1")
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT

fail() {
  echo "FAILED  $*"
  exit 1
}

cpack --config "$build/CPackConfig.cmake" -B "$place/made" >"$place/cpack.log" 2>&1 ||
  { cat "$place/cpack.log"; fail "there is no package"; }
debs=("$place"/made/*.deb)
if [ ${#debs[@]} -ne 1 ] || [ ! -f "${debs[0]}" ]; then
  fail "not one package: ${debs[*]}"
fi
deb=${debs[0]}
echo "$(basename "$deb"), $(stat -c %s "$deb") bytes"

# ---- What it says of itself. ----

for field in Depends Recommends Suggests Maintainer Description Installed-Size; do
  [ -n "$(dpkg-deb --field "$deb" "$field")" ] || fail "it does not say $field"
done
dpkg-deb --field "$deb" Depends | grep -q libc6 || fail "it does not depend on the C library"
dpkg-deb --field "$deb" Recommends | grep -Eq 'git, libgit2-[0-9]+\.[0-9]+$' || fail "it recommends no git"
[ "$(dpkg-deb --field "$deb" Description | wc -l)" -gt 4 ] || fail "its description is short"

# ---- What is in it. ----

dpkg-deb --contents "$deb" >"$place/contents"
awk '$2 != "root/root"' "$place/contents" | grep . && fail "not everything is root's"
awk '$1 !~ /^(-rw-r--r--|-rwxr-xr-x|drwxr-xr-x)$/' "$place/contents" | grep . && fail "odd permissions"
for file in bin/jarful share/man/man1/jarful.1.gz share/bash-completion/completions/jarful \
  share/zsh/vendor-completions/_jarful share/fish/vendor_completions.d/jarful.fish \
  share/doc/jarful/copyright share/doc/jarful/changelog.gz share/doc/jarful/language.md \
  share/doc/jarful/schemas/weigh.json share/doc/jarful/examples/kitchen.jarful \
  share/doc/jarful/examples/winter-kraut.jarful; do
  grep -q " \./usr/$file\$" "$place/contents" || fail "it does not have $file"
done
dpkg-deb --fsys-tarfile "$deb" | tar -x -O ./usr/share/doc/jarful/copyright >"$place/copyright"
for name in Jarful gumbo utf8proc "JSON for Modern C++" CLI11 fast_float Boost; do
  grep -q "$name" "$place/copyright" || fail "the copyright file does not name $name"
done
grep -c 'Permission is hereby granted' "$place/copyright" | grep -q '^[3-9]' || fail "licences are missing"

if command -v lintian >/dev/null; then
  # What is no part of Debian closes none of its bugs.
  lintian --allow-root --fail-on error,warning --suppress-tags initial-upload-closes-no-bugs "$deb" ||
    fail "lintian found something"
else
  echo "lintian is not there: it was not asked"
fi

# ---- Below a folder: in, used, out. ----

root=$place/root
mkdir -p "$root/var/lib/dpkg/info" "$root/var/lib/dpkg/updates"
: >"$root/var/lib/dpkg/status"
dpkg_there() {
  dpkg --root="$root" --force-not-root --force-depends --force-script-chrootless --log=/dev/null "$@" \
    >"$place/dpkg.log" 2>&1 || { cat "$place/dpkg.log"; fail "dpkg $*"; }
}
find "$root" | sort | grep -v /var/lib/dpkg >"$place/before" || true
dpkg_there --install "$deb"
(cd "$root/usr/share/doc/jarful/examples" && "$root/usr/bin/jarful" weigh winter-kraut cabbage=1.84kg) |
  grep -q '42.9 g  salt' || fail "the program that was installed does not weigh"
"$(dirname "$(realpath "$0")")/hardening.sh" "$root/usr/bin/jarful" || fail "it is easier to break into than it need be"
"$root/usr/bin/jarful" check "$root/usr/share/doc/jarful/examples" >/dev/null ||
  fail "the book that was installed does not check clean"
# The engine for pages is in it where it was built.
if grep -q ' ./usr/share/jarful/jarful-page-engine.wasm.gz$' "$place/contents"; then
  (cd "$root/usr/share/doc/jarful/examples" && "$root/usr/bin/jarful" page winter-kraut -o "$place/page.html") ||
    fail "the program that was installed makes no page"
  grep -q 'id="page-engine"' "$place/page.html" || fail "the page has no engine in it"
else
  echo "No engine for pages in it: cli/page-engine.sh had not been run."
fi
gzip -dc "$root/usr/share/man/man1/jarful.1.gz" | cmp -s - <("$root/usr/bin/jarful" manual) ||
  fail "the manual page is not that of the program"
dpkg_there --purge jarful
find "$root" | sort | grep -v /var/lib/dpkg >"$place/after" || true
diff "$place/before" "$place/after" || fail "something was left behind"

# ---- Into a Debian of its own. ----

if [ "${2:-}" = --debian ]; then
  release=$(. /etc/os-release && echo "$VERSION_CODENAME")
  mirror=$(apt-cache policy base-files | awk '$2 ~ /^https?:/ { print $2; exit }')
  debootstrap --variant=minbase "$release" "$place/debian" "$mirror" >"$place/debootstrap.log" 2>&1 ||
    { tail -n 20 "$place/debootstrap.log"; fail "debootstrap"; }
  cp "$deb" "$place/debian/tmp/jarful.deb"
  there() { chroot "$place/debian" env LC_ALL=C.UTF-8 DEBIAN_FRONTEND=noninteractive "$@"; }
  there apt-get install -y -q --no-install-recommends /tmp/jarful.deb >"$place/apt.log" 2>&1 ||
    { cat "$place/apt.log"; fail "apt-get install"; }
  there sh -c 'cd /usr/share/doc/jarful/examples && jarful weigh winter-kraut' | grep -q 'inside the published range' ||
    fail "the program does not weigh there"
  there jarful check /usr/share/doc/jarful/examples >/dev/null || fail "the book does not check clean there"
  there apt-get purge -y -q jarful >"$place/apt.log" 2>&1 || { cat "$place/apt.log"; fail "apt-get purge"; }
  [ -z "$(there find / -xdev -iname '*jarful*' -not -path '/proc/*' -not -path '/tmp/*' \
    -not -path '/var/log/*')" ] || fail "something was left behind there"
  echo "It goes into a bare Debian $release and out again."
fi
echo "The package is as it should be."
