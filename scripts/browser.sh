#!/bin/sh
# Prints the path of a Chromium for the browser tests. Where there is none,
# installs Debian's first and says so.
set -eu

find_browser() {
	for name in chromium chromium-browser google-chrome; do
		if command -v "$name"; then
			return 0
		fi
	done
	return 1
}

if find_browser; then
	exit 0
fi
# Standard output is kept for the path.
sh "$(dirname "$0")/install.sh" chromium >&2
find_browser
