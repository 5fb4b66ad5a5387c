#!/bin/sh
# Makes sure that lame, which encodes MP3, and espeak-ng, which speaks, are there for the
# tests of counting bubbles by their sound. Where they are not, installs Debian's and says so.
set -eu

missing=
for name in lame espeak-ng; do
	if ! command -v "$name" >/dev/null; then
		missing="$missing $name"
	fi
done
if [ -z "$missing" ]; then
	exit 0
fi

echo "sound.sh: not here:$missing; installing from Debian's packages" >&2
if ! command -v apt-get >/dev/null; then
	echo "sound.sh: no apt-get either; install$missing by hand and run this again" >&2
	exit 1
fi
as_root=
if [ "$(id -u)" -ne 0 ]; then
	if ! command -v sudo >/dev/null; then
		echo "sound.sh: installing needs root; run as root: apt-get install$missing" >&2
		exit 1
	fi
	as_root=sudo
fi
$as_root apt-get update >&2
# The names of programs and packages are the same.
$as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends $missing >&2
