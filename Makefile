# Everything here needs Go and a shell; the browser tests need browsers and a reader of
# printed codes, and the tests of sound an MP3 encoder and a speaking machine, which
# scripts/browser.sh, scanner.sh and sound.sh find or install.
GO ?= go
BROWSERS ?= chromium firefox webkit
CHECK = $(GO) test -count=1 -timeout 30m -json -tags check ./scripts/check

.PHONY: run build test check vet fuzz browser browsers scanner sound bench mutate fmt clean

run: ## build the page and serve it on this machine
	$(GO) run ./scripts/serve

build: ## write dist/rosesalt.html
	$(GO) run ./scripts/build

# The tally fails on any failure and on an empty run, so the pipe's status is
# the tests' status.
test: export ROSESALT_BROWSER = chromium
test: browser scanner sound build ## the checks, and all tests, those with a browser in Chromium
	{ $(CHECK); $(GO) test -count=1 -timeout 60m -json ./...; } | $(GO) run ./scripts/tally

check: ## form, vet, staticcheck, known vulnerabilities
	$(CHECK) | $(GO) run ./scripts/tally

vet:
	$(GO) vet ./...
	GOOS=js GOARCH=wasm $(GO) vet ./wasm ./web/... ./scripts/bench/bare

fuzz: ## each fuzz target for FUZZTIME, a minute unless given
	@GO=$(GO) sh scripts/fuzz.sh

browser:
	@sh scripts/browser.sh

scanner:
	@sh scripts/scanner.sh

# PAGES are the packages whose tests open pages, one after the other, since two
# browsers at once are late for each other's tests. Each browser has a tally of
# its own, so that none that ran no test goes unseen. FLAGS=-short leaves out
# cases that are the same to the browser.
PAGES ?= $(shell $(GO) list -f '{{.ImportPath}} {{.TestImports}} {{.XTestImports}}' ./... | awk '/rosesalt\/scripts\/page[] ]/ { print $$1 }')
browsers: scanner sound build ## the tests with a browser, in each of BROWSERS
	@sh scripts/browser.sh $(BROWSERS)
	@failed=0; \
	for browser in $(BROWSERS); do \
		echo "in $$browser:"; \
		ROSESALT_BROWSER=$$browser $(GO) test -p 1 -count=1 -timeout 100m $(FLAGS) -json $(PAGES) | $(GO) run ./scripts/tally || failed=1; \
	done; \
	exit $$failed

sound:
	@sh scripts/sound.sh

bench: browser ## sizes, start and keystrokes against a bare page; the core's benchmarks
	$(GO) run ./scripts/bench

# An hour or two for all, most of it for route; "make mutate ONLY=table" or
# "ONLY=route/gas.go" for a part. What was tried before is not tried again.
mutate: ## changes to chem's code that its tests do not notice
	$(GO) run ./scripts/mutate $(ONLY)

fmt:
	$(GO) run mvdan.cc/gofumpt@v0.12.0 -w .

clean:
	rm -rf dist
