#!/bin/sh
# Runs the parts of the tests that are named, one after the other, and writes their events
# to standard output as go test -json does:
#
#   check      form, walls, vet, staticcheck, known vulnerabilities
#   native     all packages whose tests open no page
#   chromium, firefox, webkit
#              the packages whose tests open pages, one after the other, since two browsers
#              at once are late for each other's tests
#
# Random cases are the same ones each time, so that no run is red by chance; with ROSESALT_LONG
# set they are new ones.
#
# Firefox runs the tests of what any browser may do in its own way, WebKit those of them
# that load the page, compare its figures and type a plan; with ROSESALT_LONG set both run
# all of them.
set -u
go=${GO:-go}
[ -n "${ROSESALT_LONG:-}" ] || export RAPID_SEED="${RAPID_SEED:-1}"

# A package that cannot be listed would be left out.
all=$("$go" list -f '{{.ImportPath}} {{.TestImports}} {{.XTestImports}}' ./...) || exit 1

# packages lists those whose tests open pages (1), or the others (0).
packages() {
	echo "$all" |
		awk -v pages="$1" '(/rosesalt\/scripts\/page[] ]/ ? 1 : 0) == pages { print $1 }'
}

# of is the pattern of a browser's tests, or that of all.
of() {
	if [ -n "${ROSESALT_LONG:-}" ]; then echo .; else echo "$1"; fi
}

# pages runs the tests with a pattern in a browser. A pattern that nothing matches is a fault.
pages() {
	"$go" test -list "$2" $(packages 1) | grep -q '^Test' || return 1
	ROSESALT_BROWSER=$1 "$go" test -p 1 -count=1 -timeout 100m -json -run "$2" $(packages 1)
}

if [ $# -eq 0 ]; then
	echo "tests.sh: name the parts to run" >&2
	exit 2
fi
failed=0
for part; do
	case $part in
	check) "$go" test -count=1 -timeout 30m -json -tags check ./scripts/check ;;
	native) "$go" test -count=1 -timeout 100m -json $(packages 0) ;;
	chromium) pages chromium . ;;
	firefox) pages firefox "$(of '^TestAnyBrowser')" ;;
	webkit) pages webkit "$(of '^TestAnyBrowser(Loads|Figures|Types)')" ;;
	*)
		echo "tests.sh: there is no part $part" >&2
		false
		;;
	esac || failed=1
done
exit $failed
