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

echo "browser.sh: no Chromium here; installing Debian's chromium" >&2
if ! command -v apt-get >/dev/null; then
	echo "browser.sh: no apt-get either; install Chromium by hand and run this again" >&2
	exit 1
fi
as_root=
if [ "$(id -u)" -ne 0 ]; then
	if ! command -v sudo >/dev/null; then
		echo "browser.sh: installing needs root; run as root: apt-get install chromium" >&2
		exit 1
	fi
	as_root=sudo
fi
# Standard output is kept for the path.
$as_root apt-get update >&2
$as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends chromium >&2
find_browser
