// Demo prints what the page shows before its program runs, as HTML; the build puts it into the
// file.
//
//	go run ./scripts/demo
package main

import (
	"fmt"
	"os"

	"rosesalt/web"
)

func main() {
	demo, err := web.Demo()
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	fmt.Println(demo)
}
