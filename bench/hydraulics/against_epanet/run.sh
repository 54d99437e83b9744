#!/bin/sh
# Table of times, theca and EPANET, on the same layouts and machine: run.sh BUILD_FOLDER
# The build folder is one with THECA_BUILD_BENCH=ON. EPANET comes as epanet-js with npm, into a temporary folder.
set -eu
here=$(CDPATH='' cd -- "$(dirname -- "$0")" && pwd)
build=$(CDPATH='' cd -- "$1" && pwd)
cmake --build "$build" --target theca_bench_hydraulics theca_network_inp >/dev/null
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp "$here/compare.mjs" "$work"
npm install --silent --no-audit --no-fund --prefix "$work" epanet-js@0.9.0 >/dev/null
"$build/bench/theca_network_inp" "$work"
node "$work/compare.mjs" "$build/bench/theca_bench_hydraulics" "$work"
