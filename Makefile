# Everything here needs Go and a shell; the browser tests need a Chromium,
# which "make browser" finds or installs.
GO ?= go

.PHONY: run build test vet browser bench mutate fmt clean

run: ## build the page and serve it on this machine
	$(GO) run ./scripts/serve

build: ## write dist/rosesalt.html
	$(GO) run ./scripts/build

# The tally fails on any failure and on an empty run, so the pipe's status is
# the tests' status.
test: browser build vet ## all tests, those in the browser too
	$(GO) test -count=1 -timeout 30m -json ./... | $(GO) run ./scripts/tally

vet:
	$(GO) vet ./...
	GOOS=js GOARCH=wasm $(GO) vet ./wasm ./web/... ./scripts/bench/bare

browser:
	@sh scripts/browser.sh

bench: browser ## sizes, start and keystrokes against a bare page; the core's benchmarks
	$(GO) run ./scripts/bench

# Two hours for all, most of them route's; "make mutate ONLY=table" or
# "ONLY=route/gas.go" for a part. What was tried before is not tried again.
mutate: ## changes to chem's code that its tests do not notice
	$(GO) run ./scripts/mutate $(ONLY)

fmt:
	$(GO) fmt ./...

clean:
	rm -rf dist
