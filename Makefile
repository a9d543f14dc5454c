# On a Debian machine that has Go, `make demo` and `make test` do all set-up
# themselves. CONTRIBUTING.md tells what the other targets are for.
SHELL := /bin/bash
SUDO := $(shell [ "$$(id -u)" = 0 ] || echo sudo)
# The product is one static program; only the race detector needs a C compiler.
export CGO_ENABLED := 0

.PHONY: build engine demo test lint reference bench fuzz kill power race

build: engine
	go build -trimpath -o bin/swingwright ./cmd/swingwright

# The engine for the browser, which the program then holds. A plain go build makes the
# same program without it. It is packed only when it is another one.
engine:
	GOOS=js GOARCH=wasm go build -trimpath -ldflags='-s -w' -o bin/engine.new ./cmd/swingwright-wasm
	@cmp -s bin/engine.new bin/engine.wasm && [ -f app/engine/engine.wasm.br ] || { \
	  echo "packing the engine, half a minute" && \
	  go run ./app/press bin/engine.new app/engine/engine.wasm.br && mv bin/engine.new bin/engine.wasm; }
	cp "$$(go env GOROOT)/lib/wasm/wasm_exec.js" app/engine/

# The report, its JSON and the pictures of the example job, in out/.
demo: build
	demo/show.sh bin/swingwright out

test: engine reference
	@unformatted=$$(gofmt -l .); [ -z "$$unformatted" ] || { echo "run gofmt -w on:"; echo "$$unformatted"; exit 1; }
	go vet ./...
	go test -timeout 30m ./...

# Its first run builds staticcheck, a minute or so; after that it is cached.
lint:
	go tool -modfile=tools/go.mod staticcheck ./...

# The swing is compared with another program's integrators, clearances with
# another program's polygons; printed pages and drawing files are read back by
# other programs; the site app runs in a real browser; what is proved of
# wirings is proved again by a model checker, whose proofs are C programs; what
# is done to a disk is recorded, and made to fail, by strace.
reference:
	@/usr/bin/python3 -c 'import scipy, shapely, ezdxf, openpyxl' 2>/dev/null && command -v pdftoppm >/dev/null && command -v spin >/dev/null && command -v gcc >/dev/null && command -v zbarimg >/dev/null && command -v openssl >/dev/null && command -v strace >/dev/null && [ -x /usr/bin/chromium ] || { \
	  $(SUDO) apt-get update -q && $(SUDO) apt-get install -y -q --no-install-recommends python3-scipy python3-shapely python3-ezdxf python3-openpyxl poppler-utils spin gcc libc6-dev chromium fonts-dejavu-core zbar-tools openssl strace; }

bench:
	go test -run '^$$' -bench . -benchmem -timeout 0 ./...

# Every fuzz test for a while: make fuzz TIME=5m
TIME ?= 20s
fuzz:
	@for package in $$(go list ./...); do \
	  for name in $$(go test -list '^Fuzz' $$package | grep '^Fuzz'); do \
	    echo "$$package $$name"; go test -run '^$$' -fuzz "^$$name\$$" -fuzztime $(TIME) $$package || exit 1; \
	  done; \
	done

# Ten thousand acknowledged writes to a book, its writers killed at random instants.
kill:
	BOOK_WRITES=10000 go test ./book -run 'TestKilled$$' -count 1 -v -timeout 0

# The power cut six thousand times while books are made, entered into, brought up, backed up and compacted, and the disk
# failing some hundred times.
power: reference
	set -o pipefail; BOOK_CUTS=1000 go test ./book -run 'TestPowerCut$$|TestDiskFails$$' -count 1 -v -timeout 0 | grep -v -e '=== RUN' -e '^ *--- PASS'

race: reference
	CGO_ENABLED=1 go test -race ./...
