#!/bin/sh
# Prints the paths of the browsers for the tests: of those that are named
# (chromium, firefox, webkit), of a Chromium when none is. Where one is missing,
# installs Debian's first and says so.
set -eu

# programs are the commands one of which must be there.
programs() {
	case $1 in
	chromium) echo chromium chromium-browser google-chrome ;;
	firefox) echo firefox-esr firefox ;;
	webkit) echo WebKitWebDriver ;;
	Xvfb) echo Xvfb ;;
	*)
		echo "browser.sh: no browser is called $1; there are chromium, firefox and webkit" >&2
		exit 2
		;;
	esac
}

# package is Debian's package of it.
package() {
	case $1 in
	firefox) echo firefox-esr ;;
	webkit) echo webkit2gtk-driver ;;
	Xvfb) echo xvfb ;;
	*) echo "$1" ;;
	esac
}

find_program() {
	for name in $(programs "$1"); do
		if command -v "$name"; then
			return 0
		fi
	done
	return 1
}

[ $# -gt 0 ] || set -- chromium
for browser; do
	programs "$browser" >/dev/null
	needs=$browser
	# WebKitGTK draws on an X screen.
	[ "$browser" != webkit ] || needs="Xvfb webkit"
	for one in $needs; do
		if ! found=$(find_program "$one"); then
			# Standard output is kept for the path.
			sh "$(dirname "$0")/install.sh" "$(package "$one")" >&2
			found=$(find_program "$one")
		fi
	done
	echo "$found"
done
