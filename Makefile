# Everything here needs Go and a shell; the browser tests need a Chromium,
# which "make browser" finds or installs, and the tests of sound an MP3 encoder
# and a speaking machine, which "make sound" does.
GO ?= go
CHECK = $(GO) test -count=1 -timeout 30m -json -tags check ./scripts/check

.PHONY: run build test check vet fuzz browser sound bench mutate fmt clean

run: ## build the page and serve it on this machine
	$(GO) run ./scripts/serve

build: ## write dist/rosesalt.html
	$(GO) run ./scripts/build

# The tally fails on any failure and on an empty run, so the pipe's status is
# the tests' status.
test: browser sound build ## the checks, and all tests, those in the browser too
	{ $(CHECK); $(GO) test -count=1 -timeout 30m -json ./...; } | $(GO) run ./scripts/tally

check: ## form, vet, staticcheck, known vulnerabilities
	$(CHECK) | $(GO) run ./scripts/tally

vet:
	$(GO) vet ./...
	GOOS=js GOARCH=wasm $(GO) vet ./wasm ./web/... ./scripts/bench/bare

fuzz: ## each fuzz target for FUZZTIME, a minute unless given
	@GO=$(GO) sh scripts/fuzz.sh

browser:
	@sh scripts/browser.sh

sound: ## lame and espeak-ng, for the tests of counting bubbles by ear
	@sh scripts/sound.sh

bench: browser ## sizes, start and keystrokes against a bare page; the core's benchmarks
	$(GO) run ./scripts/bench

# Two hours for all, most of them route's; "make mutate ONLY=table" or
# "ONLY=route/gas.go" for a part. What was tried before is not tried again.
mutate: ## changes to chem's code that its tests do not notice
	$(GO) run ./scripts/mutate $(ONLY)

fmt:
	$(GO) run mvdan.cc/gofumpt@v0.12.0 -w .

clean:
	rm -rf dist
