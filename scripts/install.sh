#!/bin/sh
# Installs Debian packages for the tests, where apt-get is there and root can be had.
# Says on standard error what it does; standard output is left to the caller.
set -eu

echo "install.sh: installing Debian's $*" >&2
if ! command -v apt-get >/dev/null; then
	echo "install.sh: no apt-get here; install by hand and run this again: $*" >&2
	exit 1
fi
as_root=
if [ "$(id -u)" -ne 0 ]; then
	if ! command -v sudo >/dev/null; then
		echo "install.sh: installing needs root; run as root: apt-get install $*" >&2
		exit 1
	fi
	as_root=sudo
fi
$as_root apt-get update >&2
$as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "$@" >&2
