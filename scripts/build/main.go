// Build compiles the page and writes it as one HTML file.
//
//	go run ./scripts/build
package main

import (
	"flag"
	"fmt"
	"os"

	"rosesalt/scripts/onefile"
)

func main() {
	output := flag.String("o", "dist/rosesalt.html", "file to write")
	flag.Parse()

	sizes, err := onefile.Build(onefile.Page(*output))
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Printf("%s: %.2f MB (wasm %.2f MB, gzip %.2f MB)\n",
		*output, megabytes(sizes.File), megabytes(sizes.Program), megabytes(sizes.Packed))
}

func megabytes(n int) float64 { return float64(n) / 1e6 }
