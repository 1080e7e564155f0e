#!/usr/bin/env bash
# What the linker has written into a program about how it is loaded.
#   hardening.sh PROGRAM
set -euo pipefail

program=$1
fail() {
  echo "FAILED  $program: $*"
  exit 1
}
readelf() { LC_ALL=C command readelf --wide "$@"; }

readelf --file-header "$program" | grep -Eq 'Type: +DYN' || fail "it has a fixed address"
dynamic=$(readelf --dynamic "$program")
grep -Eq 'FLAGS_1.*PIE' <<<"$dynamic" || fail "it is a library, not a program without a fixed address"
grep -Eq 'BIND_NOW|FLAGS_1.*NOW' <<<"$dynamic" || fail "what it calls is looked up while it runs"
grep -Eq 'TEXTREL' <<<"$dynamic" && fail "its code is written to when it is loaded"
grep -Eq 'RPATH|RUNPATH' <<<"$dynamic" && fail "it names folders for its libraries"
segments=$(readelf --program-headers "$program")
grep -q 'GNU_RELRO' <<<"$segments" || fail "its tables stay writable"
grep -Eq 'GNU_STACK.* RW +' <<<"$segments" || fail "its stack can be run"
grep -Eq ' RWE ' <<<"$segments" && fail "something in it can be written and run"

# Each pointer in a table is a relocation at every start, and each page of them a page to be copied. What is
# left is mostly the C++ library's; the larder's tables (engine/larder/constant.hpp) and those of the fields of
# results (engine/render/fields) have none.
most=8200
relocations=$(readelf --relocs "$program" |
  awk '/R_X86_64_RELATIVE|R_AARCH64_RELATIVE/ { n++ } / offsets$/ { n += $1 } END { print n + 0 }')
[ "$relocations" -le "$most" ] || fail "$relocations pointers are relocated at its start; at most $most are to be"
echo "$program: no fixed address, read-only after its start, $relocations pointers relocated"
