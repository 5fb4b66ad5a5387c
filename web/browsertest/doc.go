// Package browsertest uses the built file as a person does: opened from disk, in
// a headless browser (Chromium, or the one that ROSESALT_BROWSER names), with no
// network. Its tests fail when the page asks for anything but itself or complains.
package browsertest
