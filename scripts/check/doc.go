// Package check holds the checks of the sources as tests, so that one that fails is
// counted as any other test: form, vet, staticcheck, known vulnerabilities, the walls. They take
// longer than what they look at takes to change, so they stand behind the tag "check":
//
//	go test -tags check ./scripts/check
package check
