//go:build !(js && wasm)

package main

import (
	"fmt"
	"os"
)

func main() {
	fmt.Fprintln(os.Stderr, "bare: this program runs in a browser; make bench builds it")
	os.Exit(1)
}
