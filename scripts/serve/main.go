// Serve builds the page and serves it on this machine only.
//
//	go run ./scripts/serve
package main

import (
	"errors"
	"flag"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"syscall"
	"time"

	"rosesalt/scripts/onefile"
)

// tries is how many ports after the wanted one are looked at.
const tries = 20

func main() {
	port := flag.Int("port", 8094, "port to serve on; the next free one is taken when it is in use")
	flag.Parse()
	if err := run(*port); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(port int) error {
	root, err := onefile.Root()
	if err != nil {
		return err
	}
	const output = "dist/rosesalt.html"
	job := onefile.Page(output)
	if _, err := onefile.Build(job); err != nil {
		return err
	}
	listener, err := listen(port)
	if err != nil {
		return err
	}
	file := filepath.Join(root, output)
	fmt.Printf("serving http://%s/\n", listener.Addr())
	fmt.Printf("the same page opens from disk: %s\n", file)
	server := http.Server{Handler: handler(file), ReadHeaderTimeout: 10 * time.Second}
	return server.Serve(listener)
}

// listen takes the first free port from port on. It stays on the loopback:
// the page is nobody else's business until it is shared on purpose.
func listen(port int) (net.Listener, error) {
	for p := port; p < port+tries; p++ {
		l, err := net.Listen("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(p)))
		if err == nil {
			return l, nil
		}
		if !errors.Is(err, syscall.EADDRINUSE) {
			return nil, fmt.Errorf("serve: port %d: %w", p, err)
		}
	}
	return nil, fmt.Errorf("serve: ports %d to %d are all in use", port, port+tries-1)
}

// handler serves the one file at the root and under its own name, read anew
// each time, so that a reload shows the last build.
func handler(file string) http.Handler {
	page := func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Cache-Control", "no-cache, no-store, must-revalidate")
		w.Header().Set("X-Content-Type-Options", "nosniff")
		http.ServeFile(w, r, file)
	}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", page)
	mux.HandleFunc("GET /"+filepath.Base(file), page)
	return mux
}
