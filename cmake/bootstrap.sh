#!/bin/sh
# One command from a fresh machine to a result:
#   sh cmake/bootstrap.sh study           build, assess the demo farm, write its pictures to study-output/
#   sh cmake/bootstrap.sh test            every gate: format, tests (g++), sanitizers (clang++), clang-tidy
#   sh cmake/bootstrap.sh bench           build and run the benchmarks
#   sh cmake/bootstrap.sh format          rewrite the C++ sources with clang-format
# `test --again` also repeats the stages that passed before on exactly these files.
# Environment: THECA_PYTHON  the Python interpreter to use
#              THECA_BUILD   where to build (default: build/ in the source tree)
set -eu

source_dir=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
build_root=${THECA_BUILD:-$source_dir/build}
jobs=$(nproc 2>/dev/null || echo 2)
command=${1:-}
again=${2:-}
cd "$source_dir"

say() { printf '%s\n' "theca: $*"; }
die() {
  printf '%s\n' "theca: $*" >&2
  exit 1
}

study_packages="g++ cmake ninja-build libboost-dev libeigen3-dev libtomlplusplus-dev coinor-libcbc-dev
  python3 python3-dev pybind11-dev python3-numpy python3-pint python3-matplotlib python3-tqdm"
test_packages="$study_packages doctest-dev libbenchmark-dev pkg-config clang libclang-rt-14-dev clang-format-14
  clang-tidy-14 python3-pytest python3-scipy python3-gsw python3-pandas python3-distributed
  python3-pip python3-setuptools python3-wheel python3-venv calculix-ccx"

# --- what the machine needs ---------------------------------------------------------------------------------------
install_packages() {
  if command -v dpkg-query >/dev/null 2>&1 && command -v apt-get >/dev/null 2>&1; then
    missing=""
    for package in "$@"; do
      dpkg-query -W -f '${Status}\n' "$package" 2>/dev/null | grep -q '^install ok installed' ||
        missing="$missing $package"
    done
    [ -n "$missing" ] || return 0
    install="apt-get install -y --no-install-recommends$missing"
    if [ "$(id -u)" = 0 ]; then
      as_root=""
    elif command -v sudo >/dev/null 2>&1 && sudo -n true 2>/dev/null; then
      as_root="sudo -n"
    else
      die "these packages are missing and installing them needs root. Run:
  sudo $install"
    fi
    say "installing from the distribution's packages:$missing"
    $as_root apt-get update -qq
    # shellcheck disable=SC2086
    DEBIAN_FRONTEND=noninteractive $as_root $install >"$build_root/packages.log" 2>&1 ||
      die "the installation failed; see $build_root/packages.log"
  else
    say "not a Debian system. Needed here, under whatever names this system uses:"
    for package in "$@"; do printf '  %s\n' "$package"; done
    for tool in c++ cmake ninja; do
      command -v "$tool" >/dev/null 2>&1 || die "'$tool' is not on the PATH"
    done
    say "going on with what is here; CMake names what it cannot find"
  fi
}

# The first python3 on PATH may belong to a version manager that does not see the distribution's packages.
choose_python() {
  modules=$1
  for candidate in ${THECA_PYTHON:-} /usr/bin/python3 python3; do
    if "$candidate" -c "import sys, os, sysconfig, $modules
sys.exit(not os.path.exists(os.path.join(sysconfig.get_paths()['include'], 'Python.h')))" 2>/dev/null; then
      python=$(command -v "$candidate")
      say "Python is $python ($("$python" -c 'import platform; print(platform.python_version())'))"
      return 0
    fi
  done
  die "no Python interpreter can import $modules and has its headers (tried: ${THECA_PYTHON:-} /usr/bin/python3 python3)"
}

# --- stages -------------------------------------------------------------------------------------------------------
tree_hash() {
  find CMakeLists.txt README.md DEVELOPERS.md .clang-format .clang-tidy include src tests bench python cmake -type f \
    ! -name '*.pyc' -print0 | LC_ALL=C sort -z | xargs -0 sha256sum | sha256sum | cut -c1-64
}

passed=0
failed=0
skipped=0
# stage NAME FUNCTION: runs FUNCTION, which leaves "passed failed skipped" in $build_root/NAME.count. A stage that has
# passed on exactly these files is not repeated unless asked.
stage() {
  stage_name=$1
  stamp=$build_root/$stage_name.passed
  count=$build_root/$stage_name.count
  if [ "$again" != --again ] && [ -f "$stamp" ] && [ "$(cat "$stamp")" = "$hash" ]; then
    say "$stage_name: passed before on exactly these files (test --again repeats it)"
  else
    rm -f "$stamp" "$count"
    say "$stage_name ..."
    started=$(date +%s)
    if "$2"; then
      printf '%s' "$hash" >"$stamp"
      say "$stage_name: passed in $(($(date +%s) - started)) s"
    else
      say "$stage_name: FAILED after $(($(date +%s) - started)) s"
      grep -qE '^[0-9]+ [1-9]' "$count" 2>/dev/null || echo "0 1 0" >"$count" # a failure always counts
    fi
  fi
  read -r p f s <"$count"
  passed=$((passed + p)) failed=$((failed + f)) skipped=$((skipped + s))
}

# run_ctest BUILD_DIR COUNT_FILE
run_ctest() {
  report=$1/ctest.xml
  rm -f "$report"
  result=0
  ctest --test-dir "$1" -j "$jobs" --output-on-failure --no-tests=error --output-junit "$report" >"$1/ctest.log" 2>&1 ||
    result=1
  if [ "$result" = 0 ]; then grep -E 'tests passed|Skipped' "$1/ctest.log" || true; else tail -n 200 "$1/ctest.log"; fi
  attribute() { sed -n "s/.*[[:space:]]$1=\"\([0-9]*\)\".*/\1/p" "$report" | head -n 1; }
  [ -s "$report" ] || return 1
  total=$(attribute tests) bad=$(attribute failures) off=$(attribute skipped)
  echo "$((total - bad - off)) $bad $off" >"$2"
  return "$result"
}

configure() { # configure DIR ARGS...
  dir=$1
  shift
  cmake -S . -B "$dir" -G Ninja -Wno-dev "$@" >"$dir.configure.log" 2>&1 || {
    tail -n 40 "$dir.configure.log"
    return 1
  }
}

build() { # build DIR ARGS...
  dir=$1
  shift
  cmake --build "$dir" -j "$jobs" "$@" >"$dir.build.log" 2>&1 || {
    grep -vE '^\[[0-9]+/[0-9]+\]' "$dir.build.log" | head -n 80
    return 1
  }
}

cpp_files() { find include src tests bench python -name '*.hpp' -o -name '*.cpp' | LC_ALL=C sort; }

check_format() {
  cpp_files | xargs clang-format-14 --dry-run -Werror || return 1
  echo "1 0 0" >"$build_root/format.count"
}

configure_release() {
  configure "$build_root/release" -DCMAKE_BUILD_TYPE=Release -DTHECA_BUILD_PYTHON=ON -DPython_EXECUTABLE="$python" "$@"
}

test_release() {
  configure_release -DTHECA_BUILD_TESTS=ON -DTHECA_BUILD_BENCH=ON || return 1
  build "$build_root/release" || return 1
  run_ctest "$build_root/release" "$build_root/release.count"
}

test_sanitizers() {
  configure "$build_root/sanitizers" -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_BUILD_TYPE=None -DTHECA_SANITIZE=ON \
    "-DCMAKE_CXX_FLAGS=-O1 -g1" -DTHECA_BUILD_TESTS=ON -DTHECA_BUILD_BENCH=OFF -DTHECA_BUILD_PYTHON=OFF || return 1
  build "$build_root/sanitizers" || return 1
  run_ctest "$build_root/sanitizers" "$build_root/sanitizers.count"
}

# Works on the compile commands of the clang++ build; the largest sources first, so that no core waits for one at the end.
# The analyzer's shallow mode takes a third of the time off; what runs is watched by the sanitizers besides.
check_tidy() {
  find src -name '*.cpp' -printf '%s %p\n' | sort -rn | cut -d' ' -f2 >"$build_root/tidy.files"
  xargs -P "$jobs" -n 1 clang-tidy-14 -p "$build_root/sanitizers" --quiet --warnings-as-errors='*' \
    --extra-arg=-Xclang --extra-arg=-analyzer-config --extra-arg=-Xclang --extra-arg=mode=shallow \
    <"$build_root/tidy.files" >"$build_root/tidy.log" 2>"$build_root/tidy.err" || {
    grep -E 'warning:|error:' "$build_root/tidy.log" | sort -u | head -n 60
    return 1
  }
  echo "$(wc -l <"$build_root/tidy.files") 0 0" >"$build_root/tidy.count"
}

# --- commands -----------------------------------------------------------------------------------------------------
mkdir -p "$build_root"
case $command in
  study)
    # shellcheck disable=SC2086
    install_packages $study_packages
    choose_python "numpy, pint, matplotlib, tqdm"
    tests=""
    [ -f "$build_root/release/CMakeCache.txt" ] || tests="-DTHECA_BUILD_TESTS=OFF -DTHECA_BUILD_BENCH=OFF"
    say "building (log: $build_root/release.build.log) ..."
    # shellcheck disable=SC2086
    configure_release $tests || exit 1
    build "$build_root/release" --target _theca || exit 1
    PYTHONPATH="$build_root/release/python" "$python" -m theca.studies.demo_study --out "$source_dir/study-output"
    ;;
  test)
    # shellcheck disable=SC2086
    install_packages $test_packages
    choose_python "numpy, pint, matplotlib, tqdm, pytest, scipy, gsw"
    hash=$(tree_hash)
    stage format check_format
    stage release test_release
    stage sanitizers test_sanitizers
    stage tidy check_tidy
    echo "$passed passed, $failed failed, $skipped skipped"
    [ "$failed" = 0 ]
    ;;
  bench)
    # shellcheck disable=SC2086
    install_packages $test_packages
    configure "$build_root/bench" -DCMAKE_BUILD_TYPE=None "-DCMAKE_CXX_FLAGS=-O2 -DNDEBUG" -DTHECA_BUILD_TESTS=OFF \
      -DTHECA_BUILD_BENCH=ON -DTHECA_BUILD_PYTHON=OFF || exit 1
    build "$build_root/bench" || exit 1
    for bench in "$build_root"/bench/bench/theca_bench_*; do
      [ -x "$bench" ] && "$bench" --benchmark_color=false
    done
    ;;
  format)
    install_packages clang-format-14
    cpp_files | xargs clang-format-14 -i
    ;;
  *)
    sed -n '2,9s/^# \{0,1\}//p' "$0"
    exit 2
    ;;
esac
