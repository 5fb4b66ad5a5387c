// Mutate changes chem's code, one small change at a time, and tells which of
// the changes no test of the package notices.
//
//	go run ./scripts/mutate                 # formula, reaction, ledger, table, route
//	go run ./scripts/mutate table           # one package
//	go run ./scripts/mutate route/gas.go    # one file
//
// The changes are made by go-gremlins; see standin.go for how it is made to run
// the tests. Verdicts are written to dist/mutants as they come: a run that was
// stopped goes on where it was. Where a file changed, all its mutants run
// again; where only tests changed, those that had lived do.
//
// With -every 5 a fifth of the mutants is tried, the same ones each time: for a
// large package that is as good a measure in a fifth of the time.
//
// Mutate ends with a table and fails where a package's tests notice less than
// 85 of 100 changes, those in lines that no test reaches counted as unnoticed.
package main

import (
	"flag"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
)

// enough is the least share of mutants that must be killed, in percent.
const enough = 85

var packages = []string{"formula", "reaction", "ledger", "table", "route"}

func main() {
	if filepath.Base(os.Args[0]) == "go" {
		os.Exit(standIn(os.Args[1:]))
	}
	var o options
	flag.BoolVar(&o.quick, "quick", false, "judge by the short tests alone; those that live run again without -quick")
	flag.BoolVar(&o.more, "more", false, "other changes: swap && and ||, += and -=, break and continue, shifts and bits")
	flag.IntVar(&o.every, "every", 1, "try one in so many, spread over the files")
	flag.BoolVar(&o.fresh, "fresh", false, "forget earlier verdicts")
	show := flag.Bool("show", false, "run nothing, show what is known")
	flag.Parse()
	wanted := flag.Args()
	if len(wanted) == 0 {
		wanted = packages
	}
	// A stop ends gremlins too; what it told so far is kept.
	stop := make(chan os.Signal, 1)
	signal.Notify(stop, os.Interrupt, syscall.SIGTERM)

	good, err := run(wanted, o, *show, stop)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
	}
	if err != nil || !good {
		os.Exit(1)
	}
}

func run(wanted []string, o options, showOnly bool, stop <-chan os.Signal) (good bool, err error) {
	part := showOnly || o.every > 1
	var known []*record
	if !showOnly {
		bench, err := newBench(o, stop)
		if err != nil {
			return false, err
		}
		defer bench.close()
		for _, w := range wanted {
			pkg, file, one := strings.Cut(w, "/")
			part = part || one
			r, err := bench.mutate(pkg, file)
			if err != nil {
				return false, err
			}
			known = append(known, r)
		}
	} else {
		for _, w := range wanted {
			pkg, _, _ := strings.Cut(w, "/")
			r, err := load(pkg, o)
			if err != nil {
				return false, err
			}
			known = append(known, r)
		}
	}
	return report(os.Stdout, known, part), nil
}
