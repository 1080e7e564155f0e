# shellcheck shell=bash
# Sourced by cli/demo.sh and tests/run.sh: installs, on Debian, the packages that are not there yet, and
# prepares a build folder. Nothing is asked of apt when nothing is missing.

# What building the program takes; Boost is chosen apart, by its version.
# shellcheck disable=SC2034  # used by those who source this
engine_packages=(g++ cmake ninja-build pkg-config git dpkg-dev libmuparser-dev nlohmann-json3-dev
  libcli11-dev libutf8proc-dev libfast-float-dev libfmt-dev libgumbo-dev libedit-dev libedit2
  libgit2-dev libqrencode-dev libqrencode4)
# What the tests take besides.
# shellcheck disable=SC2034
test_packages=(libgtest-dev libgmock-dev librapidcheck-dev libvalijson-dev libbenchmark-dev units python3
  libical-dev python3-icalendar zsh fish
  mandoc libxml2-utils poppler-utils chromium fonts-dejavu-core fonts-liberation)

# What the engine for pages takes besides (cli/page-engine.sh).
# shellcheck disable=SC2034
page_packages=(emscripten node-acorn zopfli)

# And what the long ones take, which tests/run.sh --full runs.
# shellcheck disable=SC2034
full_packages=(lintian debootstrap python3-pint clang clang-tidy libclang-rt-dev gcovr)

least_boost=1.81 # the grammar does not compile with 1.74

package_is_there() {
  local state
  state=$(dpkg-query -W -f '${db:Status-Status}' "$1" 2>/dev/null) && [ "$state" = installed ]
}

# A Boost that is new enough, wherever it came from.
boost_is_there() {
  local header least
  least=$(printf '%d%03d00' "${least_boost%%.*}" "${least_boost#*.}")
  for header in /usr/include/boost/version.hpp /usr/local/include/boost/version.hpp; do
    if [ -r "$header" ] && awk -v least="$least" \
      '$2 == "BOOST_VERSION" { found = $3 >= least } END { exit !found }' "$header"; then
      return 0
    fi
  done
  return 1
}

# Prints the package of a Boost that is new enough: the release's own if it will do, otherwise the
# newest of the versioned ones. Needs apt's lists.
boost_package() {
  local candidate newest
  candidate=$(apt-cache policy libboost-dev | awk '$1 == "Candidate:" { print $2 }')
  if [ -n "$candidate" ] && [ "$candidate" != "(none)" ] &&
    dpkg --compare-versions "$candidate" ge "$least_boost"; then
    echo libboost-dev
    return
  fi
  newest=$(apt-cache pkgnames libboost1. | grep -E '^libboost1\.[0-9]+-dev$' | sort -V | tail -n 1 ||
    true)
  if [ -n "$newest" ] && dpkg --compare-versions "${newest//[!0-9.]/}" ge "$least_boost"; then
    echo "$newest"
  else
    echo "libboost${least_boost}-dev"
  fi
}

# as_root COMMAND…: through sudo where we are not root.
as_root() {
  if [ "$(id -u)" -eq 0 ]; then
    "$@"
  else
    sudo "$@"
  fi
}

apt_get() {
  as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -o DPkg::Lock::Timeout=120 "$@"
}

# install_packages PACKAGE…: --no-remove, because a package of yours must not go for our sake.
install_packages() {
  apt_get install -y --no-install-recommends --no-remove "$@"
}

# setup_packages LOG PACKAGE…: installs what is missing of the packages and of Boost, and says in one
# line what could not be installed. Goes on either way: a library may be there by another road, and
# if it is not, CMake says which one it lacks.
setup_packages() {
  local log=$1 package boost_missing=no
  local -a missing=() refused=()
  shift
  if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
    echo "This is no Debian system: nothing is installed here. Needed: $* libboost-dev ($least_boost or newer)."
    return 0
  fi
  for package in "$@"; do
    package_is_there "$package" || missing+=("$package")
  done
  boost_is_there || boost_missing=yes
  if [ ${#missing[@]} -eq 0 ] && [ "$boost_missing" = no ]; then
    return 0
  fi
  [ "$boost_missing" = no ] || missing+=("Boost $least_boost")
  if [ "$(id -u)" -ne 0 ] && ! command -v sudo >/dev/null; then
    echo "Could not install (neither root nor sudo): ${missing[*]}"
    return 0
  fi

  echo "Installing: ${missing[*]}"
  mkdir -p "$(dirname "$log")"
  : >"$log"
  apt_get update >>"$log" 2>&1 || echo "apt-get update failed; going on with the lists that are here."
  [ "$boost_missing" = no ] || missing[-1]=$(boost_package)
  if ! install_packages "${missing[@]}" >>"$log" 2>&1; then
    # One bad name fails them all: find out which.
    for package in "${missing[@]}"; do
      install_packages "$package" >>"$log" 2>&1 || refused+=("$package")
    done
  fi
  if [ ${#refused[@]} -gt 0 ]; then
    echo "Could not install: ${refused[*]} (apt's own words: $log)"
  fi
}

# Debian has muParser as a shared library alone, which takes longer to load than a recipe takes to
# weigh. Its source package, compiled in, saves that; without it the shared library does as well.
# fetch_muparser ROOT LOG: puts the source into ROOT/build/muparser, once.
fetch_muparser() {
  fetch_library "$1" "$2" muparser libmuparser2v5 src/muParser.cpp ||
    echo "Could not fetch the source of muParser; its shared library does as well (apt's own words: $2)"
}

# A page's engine is compiled from source, this library too.
# fetch_utf8proc ROOT LOG: likewise into ROOT/build/utf8proc.
fetch_utf8proc() {
  fetch_library "$1" "$2" utf8proc libutf8proc2 utf8proc.c ||
    { echo "Could not fetch the source of utf8proc (apt's own words: $2)" && return 1; }
}

# fetch_library ROOT LOG SOURCE PACKAGE FILE: puts a source package, from wherever PACKAGE would be
# installed from, into ROOT/build/SOURCE, unless FILE is there already. The machine's own list of
# sources is left as it is.
fetch_library() {
  local folder=$1/build/$3 log=$2 source=$3 package=$4 file=$5 apt status=0
  [ ! -f "$folder/$file" ] || return 0
  command -v apt-get >/dev/null && command -v dpkg-source >/dev/null || return 0
  apt=$folder.apt
  rm -rf "$folder" "$apt"
  mkdir -p "$apt/lists/partial" "$apt/cache/archives/partial"
  echo "Fetching the source of $source"
  if fetch_source "$source" "$package" "$apt" >>"$log" 2>&1; then
    mv "$apt/$source"-*/ "$folder"
  else
    status=1
  fi
  rm -rf "$apt"
  return "$status"
}

# fetch_source SOURCE PACKAGE FOLDER: unpacks a source package into a folder, from wherever PACKAGE
# would be installed from.
fetch_source() {
  local source=$1 package=$2 folder=$3 keys=/usr/share/keyrings/debian-archive-keyring.gpg by=
  [ ! -f "$keys" ] || by="[signed-by=$keys] "
  apt-cache policy "$package" | awk -v by="$by" '$1 ~ /^[0-9]+$/ && $2 ~ /^https?:/ {
    split($3, part, "/")
    print "deb-src " by $2 " " part[1] " " part[2]
  }' | sort -u >"$folder/sources.list"
  [ -s "$folder/sources.list" ] || return 1
  local -a options=(-q -o "Dir::Etc::SourceList=$folder/sources.list" -o Dir::Etc::SourceParts=/dev/null
    -o "Dir::State::Lists=$folder/lists" -o "Dir::Cache=$folder/cache" -o "APT::Sandbox::User=$(id -un)")
  apt-get "${options[@]}" update && (cd "$folder" && apt-get "${options[@]}" source "$source")
}

# configure ROOT PRESET [OPTION…]: a folder that was moved or copied starts afresh. muParser is compiled
# in where its source is there.
configure() {
  local root=$1 preset=$2 cache=$1/build/$2/CMakeCache.txt
  local -a fresh=()
  shift 2
  if [ -f "$cache" ] && ! grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$root" "$cache"; then
    fresh=(--fresh)
  fi
  [ ! -f "$root/build/muparser/src/muParser.cpp" ] ||
    set -- "-DJARFUL_MUPARSER_SOURCE=$root/build/muparser" "$@"
  (cd "$root" && cmake --preset "$preset" ${fresh[@]+"${fresh[@]}"} "$@")
}
