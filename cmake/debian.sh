#!/bin/sh
# From a bare Debian 12 to a running program: sh cmake/debian.sh try | test | pictures [readme] | bench [sweep] | deep
#   try       installs what is missing, builds the program, checks the harbour tug, opens the window on it
#   test      the same without opening it, then all tests; sanitizers on core
#   pictures  pictures of the window into build/pictures, to be looked at; pictures readme: those that the repository keeps
#   bench     tables of speed; bench sweep: only those of the check, no display needed
#   deep      what takes longer: thread sanitizer, clang-tidy, long random suites
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

# Programs that need a display get one of their own.
on_display() {
  xvfb-run -a -s "-screen 0 2880x1800x24" "$@"
}

open_window() {
  window="build/release/bin/swingroom sample_assemblies/harbour_tug/harbour_tug.swing.json"
  if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
    $window
  else
    echo "There is no display here. On one, this opens the window: $window"
  fi
}

# Every state; those of the README, which the repository keeps, only if asked for.
take_pictures() {
  pictures=build/release/bin/window_pictures
  if [ "$1" = readme ]; then
    on_display $pictures resources/pictures readme samples
  else
    on_display $pictures build/pictures
    QT_SCALE_FACTOR=2 on_display $pictures build/pictures empty tug draft ribbon
  fi
}

case "${1:-}" in
  try)
    install_packages
    try_sample
    open_window
    ;;
  pictures)
    install_packages
    build release --preset release --target window_pictures
    take_pictures "${2:-}"
    ;;
  bench)
    install_packages libbenchmark-dev
    cmake --preset release -DSWINGROOM_BENCHMARKS=ON >/dev/null
    cmake --build --preset release --target sweep_benchmark
    build/release/bin/sweep_benchmark
    [ "${2:-}" = sweep ] && exit
    cmake --build --preset release --target window_benchmark viewport_benchmark save_benchmark
    on_display build/release/bin/save_benchmark
    on_display build/release/bin/window_benchmark
    on_display build/release/bin/viewport_benchmark
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
    SWINGROOM_RANDOM_CASES=2000 build/release/bin/random_tests
    build tidy --preset tidy
    ;;
  *)
    sed -n '2,7p' "$0"
    exit 2
    ;;
esac
