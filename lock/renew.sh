#!/usr/bin/env bash
# Makes the three lock files anew from the .in files beside it. Needs uv on the PATH (or UV=path) and the network.
set -euo pipefail
cd "$(dirname "$0")"
options=(--universal --generate-hashes --fork-strategy fewest --python-version 3.11 --no-header --quiet "$@")
uv=${UV:-uv}
"$uv" pip compile "${options[@]}" -o run.txt run.in
"$uv" pip compile "${options[@]}" -c run.txt -o dev.txt dev.in
"$uv" pip compile "${options[@]}" -c dev.txt -o reference.txt reference.in
