#!/usr/bin/env bash
# Proves that a wrong include does not build: puts one probe line into each layer's own compile
# command (from compile_commands.json's folder, argument 1) and expects it to fail, and a right one
# to pass.
set -euo pipefail
build=$1
source=$(cd "$(dirname "$0")/.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
bad=0

# includes LAYER: the include options that CMake gives to the layer's sources.
includes() {
    grep -h -A12 "CMakeFiles/$1.dir/.*\.c\.o: C_COMPILER" "$build/build.ninja" |
        sed -n 's/^ *INCLUDES = //p' | sed -n 1p
}

probe() { # probe LAYER HEADER builds|fails
    local options
    options=$(includes "$1")
    if [ -z "$options" ]; then
        echo "layers: no compile command found for $1" >&2
        bad=1
        return
    fi
    printf '#include "%s"\nint probe(void);\nint probe(void) { return 0; }\n' "$2" >"$work/probe.c"
    local got=fails
    # shellcheck disable=SC2086
    if (cd "$source" && gcc -std=c17 -D_GNU_SOURCE $options -c "$work/probe.c" -o "$work/probe.o") \
        2>"$work/message"; then
        got=builds
    fi
    if [ "$got" != "$3" ]; then
        echo "layers: $1 with $2 $got, should be: $3" >&2
        cat "$work/message" >&2
        bad=1
    fi
}

for layer in core station store desk lesson office scan screen paper command; do
    probe "$layer" plan.h builds
done
for header in sqlite3.h openssl/evp.h SDL.h zbar.h zint.h cairo/cairo.h station.h store.h wedge.h screen.h worksheet.h; do
    probe core "$header" fails
done
for header in sqlite3.h openssl/evp.h SDL.h zbar.h store.h office.h wedge.h screen.h; do
    probe desk "$header" fails
    probe lesson "$header" fails
done
for header in sqlite3.h openssl/evp.h SDL.h zbar.h wedge.h screen.h cairo/cairo.h; do
    probe office "$header" fails
done
for header in sqlite3.h openssl/evp.h SDL.h zbar.h desk.h store.h wedge.h screen.h; do
    probe station "$header" fails
done
for header in SDL.h zbar.h wedge.h screen.h; do
    probe store "$header" fails
done
for header in sqlite3.h SDL.h station.h store.h screen.h; do
    probe scan "$header" fails
done
for header in sqlite3.h zbar.h store.h; do
    probe screen "$header" fails
done
for header in sqlite3.h SDL.h zbar.h station.h store.h wedge.h screen.h; do
    probe paper "$header" fails
done
for header in sqlite3.h openssl/evp.h SDL.h zbar.h zint.h cairo/cairo.h; do
    probe command "$header" fails
done
for layer in core station store desk office scan screen paper; do
    probe "$layer" systemd/sd-daemon.h fails
done
probe command systemd/sd-daemon.h builds
probe store sqlite3.h builds
probe store openssl/evp.h builds
probe paper cairo.h builds
probe paper zint.h builds
exit "$bad"
