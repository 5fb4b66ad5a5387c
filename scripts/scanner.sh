#!/bin/sh
# Prints the paths of what the tests scan a printed code with: pdftoppm, which draws a
# page, and zbarimg, which reads codes off a picture and shares nothing with the program
# that drew them. Installs Debian's where they are missing.
set -eu

find_scanner() {
	command -v pdftoppm && command -v zbarimg
}

if find_scanner >/dev/null; then
	find_scanner
	exit 0
fi
sh "$(dirname "$0")/install.sh" poppler-utils zbar-tools
find_scanner
