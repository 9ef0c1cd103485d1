#!/bin/sh
# From a bare Debian 12 to a running program: sh cmake/debian.sh try | test | deep
#   try   installs what is missing, builds the program, checks the harbour tug
#   test  the same, then all tests; sanitizers on core
#   deep  what takes longer: thread sanitizer, clang-tidy, long random suites
set -eu
cd "$(dirname "$0")/.."

# Asks apt only if something is missing, so that no network is needed afterwards.
install_packages() {
  missing=""
  for package in $(grep -v '^#' cmake/packages.txt) "$@"; do
    dpkg -s "$package" 2>/dev/null | grep -q '^Status: install ok installed' || missing="$missing $package"
  done
  [ -z "$missing" ] && return
  if [ "$(id -u)" = 0 ]; then root=""; else root=sudo; fi
  $root apt-get update -qq
  # shellcheck disable=SC2086
  DEBIAN_FRONTEND=noninteractive $root apt-get install -y -qq --no-install-recommends $missing
}

build() {
  cmake --preset "$1" >/dev/null
  shift
  cmake --build "$@"
}

try_sample() {
  build release --preset release --target swingroom swingroom-mesh-reader
  build/release/bin/swingroom check sample_assemblies/harbour_tug/harbour_tug.swing.json --report build/harbour_tug
  echo "Pictures and figures: build/harbour_tug/report.html"
}

case "${1:-}" in
  try)
    install_packages
    try_sample
    ;;
  test)
    install_packages
    try_sample
    build release --preset release
    ctest --preset release
    build asan --preset asan
    ctest --preset asan
    ;;
  deep)
    install_packages clang-tidy
    build tsan --preset tsan
    ctest --preset tsan
    build release --preset release
    SWINGROOM_LONG=1 ctest --preset release
    build tidy --preset tidy
    ;;
  *)
    sed -n '2,5p' "$0"
    exit 2
    ;;
esac
