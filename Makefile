# Everything here needs Go and a shell; the browser tests need browsers and a reader of
# printed codes, and the tests of sound an MP3 encoder and a speaking machine, which
# scripts/browser.sh, scanner.sh and sound.sh find or install.
GO ?= go
BROWSERS ?= chromium firefox webkit
# It shows what fails and what was skipped, counts, and fails where anything failed.
SUM = $(GO) run gotest.tools/gotestsum@v1.13.0 --format=pkgname --raw-command -- sh scripts/tests.sh
export GO

.PHONY: run build test check long others browsers vet fuzz browser scanner sound bench mutate fmt clean

run: ## build the page and serve it on this machine
	$(GO) run ./scripts/serve

build: ## write dist/rosesalt.html
	$(GO) run ./scripts/build

test: browser scanner sound build ## the checks, and all tests, those with a browser in Chromium
	$(SUM) check native chromium

check: ## form, walls, vet, staticcheck, known vulnerabilities
	$(SUM) check

# What each test says to be run at its full length. It takes a quarter of an hour.
long: export ROSESALT_LONG = 1
long: sound ## the tests without a browser, at their full length
	$(SUM) native

# The second and third browser hold what any browser may do in its own way.
others: scanner sound build ## some twenty tests in Firefox, and three minutes of WebKit
	@sh scripts/browser.sh firefox webkit
	@failed=0; for browser in firefox webkit; do echo "in $$browser:"; $(SUM) $$browser || failed=1; done; exit $$failed

browsers: export ROSESALT_LONG = 1
browsers: scanner sound build ## before a release: all tests with a browser, in each of BROWSERS
	@sh scripts/browser.sh $(BROWSERS)
	@failed=0; for browser in $(BROWSERS); do echo "in $$browser:"; $(SUM) $$browser || failed=1; done; exit $$failed

vet:
	$(GO) vet ./...
	GOOS=js GOARCH=wasm $(GO) vet -tags benchmark ./wasm ./web/... ./scripts/bench/bare

fuzz: ## each fuzz target for FUZZTIME, a minute unless given
	@GO=$(GO) sh scripts/fuzz.sh

browser:
	@sh scripts/browser.sh

scanner:
	@sh scripts/scanner.sh

sound:
	@sh scripts/sound.sh

bench: browser ## sizes, start and keystrokes against a bare page; the core's benchmarks
	$(GO) run ./scripts/bench

# A mutant that does not compile counts as noticed. Golden holds what the code gave before,
# and a build for mutants may allocate.
# Tests are timed anew, or a change that never ends would be waited for by the time of a cached run.
mutate: export GOFLAGS = -short -vet=off -count=1 -skip=Golden|Allocat
mutate: export RAPID_SEED = 1
mutate: ## changes to a package of chem (ONLY=ledger), or to one file of it (FILE=seek), that its short tests do not notice
	$(GO) run github.com/go-gremlins/gremlins/cmd/gremlins@v0.6.0 unleash --timeout-coefficient 6 --threshold-efficacy 85 --threshold-mcover 85 \
		$(if $(FILE),$(patsubst %.go,-E '^%\.go$$',$(filter-out $(FILE).go,$(notdir $(wildcard chem/$(ONLY)/*.go))))) ./chem/$(ONLY)

fmt:
	$(GO) run mvdan.cc/gofumpt@v0.12.0 -w .

clean:
	rm -rf dist
