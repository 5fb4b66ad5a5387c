//go:build !(js && wasm)

package main

import (
	"fmt"
	"os"
)

// The native build exists so that ./... compiles and vets everywhere.
func main() {
	fmt.Fprintln(os.Stderr, "wasm: this program runs in a browser; make build puts it into dist/rosesalt.html")
	os.Exit(1)
}
