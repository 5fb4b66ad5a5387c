// Tally reads the events of go test -json, shows what failed and counts.
//
//	go test -json ./... | go run ./scripts/tally
//
// It ends with the line "N passed, N failed" and fails when anything failed or
// nothing ran: a run without tests proves nothing.
package main

import (
	"fmt"
	"os"
)

func main() {
	count, err := Tally(os.Stdin, os.Stdout)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		count.Failed++
	}
	if count.Passed+count.Failed == 0 {
		fmt.Println("tally: no test ran")
	}
	if count.Skipped > 0 {
		fmt.Printf("%d skipped\n", count.Skipped)
	}
	fmt.Printf("%d passed, %d failed\n", count.Passed, count.Failed)
	if count.Failed > 0 || count.Passed == 0 {
		os.Exit(1)
	}
}
