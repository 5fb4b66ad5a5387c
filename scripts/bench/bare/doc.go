// Bare is the smallest page the component library makes: the same shell and
// loader around a heading. The bench program compares the real page with it,
// in size and in the time to stand, so that what is measured is ours.
package main
