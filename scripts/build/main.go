// Build compiles the page and writes it as one HTML file.
//
//	go run ./scripts/build
//	go run ./scripts/build -main ./scripts/bench/bare -style "" -demo "" -o dist/bare.html
package main

import (
	"flag"
	"fmt"
	"os"
	"strings"

	"rosesalt/scripts/onefile"
)

func main() {
	program := flag.String("main", "./wasm", "package of the program")
	style := flag.String("style", strings.Join(onefile.Styles, ","), "stylesheets to inline, separated by commas")
	demo := flag.String("demo", "./scripts/demo", "package that prints what stands before the program does")
	output := flag.String("o", "dist/rosesalt.html", "file to write")
	flag.Parse()

	job := onefile.Job{Main: *program, Demo: *demo, Output: *output}
	if *style != "" {
		job.Styles = strings.Split(*style, ",")
	}
	sizes, err := onefile.Build(job)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Printf("%s: %.2f MB (wasm %.2f MB, gzip %.2f MB)\n",
		*output, megabytes(sizes.File), megabytes(sizes.Program), megabytes(sizes.Packed))
}

func megabytes(n int) float64 { return float64(n) / 1e6 }
