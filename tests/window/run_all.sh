#!/usr/bin/env bash
# Runs every script beside it that drives the real window, one after another, and says which passed.
#
#   tests/window/run_all.sh [PROGRAM]
cd "$(dirname "$0")/../.."
failed=0
for script in t1 t1_keys t2 p1 i1; do
    if said=$("tests/window/$script.sh" "$@" 2>&1); then word=passed; else word=FAILED failed=1; fi
    echo "$script: $word"
    sed 's/^/    /' <<<"$said"
done
exit "$failed"
