package main

import (
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestHandlerServesOnlyThePage(t *testing.T) {
	file := filepath.Join(t.TempDir(), "page.html")
	require.NoError(t, os.WriteFile(file, []byte("<!doctype html>the page"), 0o644))
	for path, want := range map[string]int{
		"/":          http.StatusOK,
		"/page.html": http.StatusOK,
		"/other":     http.StatusNotFound,
		"/../go.mod": http.StatusMovedPermanently,
	} {
		w := httptest.NewRecorder()
		handler(file).ServeHTTP(w, httptest.NewRequest(http.MethodGet, path, nil))
		if want == http.StatusMovedPermanently {
			// The mux cleans the path; where it leads is not the page.
			assert.NotEqual(t, http.StatusOK, w.Code, path)
			continue
		}
		assert.Equal(t, want, w.Code, path)
		if want == http.StatusOK {
			assert.Contains(t, w.Body.String(), "the page")
			assert.Contains(t, w.Header().Get("Cache-Control"), "no-cache")
		}
	}
}

func TestListenTakesTheNextFreePort(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer taken.Close()
	port := taken.Addr().(*net.TCPAddr).Port
	got, err := listen(port)
	require.NoError(t, err)
	defer got.Close()
	assert.Greater(t, got.Addr().(*net.TCPAddr).Port, port)
	assert.True(t, got.Addr().(*net.TCPAddr).IP.IsLoopback())
}
