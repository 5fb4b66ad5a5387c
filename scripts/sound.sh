#!/bin/sh
# Makes sure that lame, which encodes MP3, and espeak-ng, which speaks, are there for the
# tests of counting bubbles by their sound: installs Debian's where they are missing.
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

# The names of programs and packages are the same.
sh "$(dirname "$0")/install.sh" $missing
