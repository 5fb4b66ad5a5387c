#!/bin/sh
# Runs every fuzz target for a time each, FUZZTIME or a minute, one after the other on
# one core. What makes one fail lies afterwards in its testdata/fuzz, as a test.
set -u
cd "$(dirname "$0")/.."
go=${GO:-go}

failed=0
for file in $(grep -rl --include='*_test.go' '^func Fuzz' . | sort); do
	package=$(dirname "$file")
	for target in $(sed -n 's/^func \(Fuzz[A-Za-z0-9]*\)(.*/\1/p' "$file"); do
		echo "== $package $target"
		"$go" test -run='^$' -fuzz="^$target\$" -fuzztime="${FUZZTIME:-1m}" -parallel=1 "$package" || failed=1
	done
done
exit $failed
