#!/bin/sh
# Hold the program as users get it, stripped, to what the compiler and linker
# are asked for: every address at random, nothing writable that runs, tables
# of addresses read-only once it has started, overruns noticed, and nothing in
# it about the machine that built it.
set -u
B=${B:-build}
program=$B/gcc/shoal
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
bad=0
fail() { echo "$program: $*"; bad=1; }

strip -o "$work/shoal" "$program" || exit 1
export LC_ALL=C
cd "$work" || exit 1
readelf -hW shoal > header && readelf -lW shoal > segments &&
	readelf -dW shoal > dynamic && readelf --dyn-syms -W shoal > symbols ||
	exit 1

# has FILE PATTERN WHAT; lacks FILE PATTERN WHAT
has() { grep -qE "$2" "$1" || fail "$3"; }
lacks() { if grep -E "$2" "$1"; then fail "$3"; fi; }

has header 'Type: +DYN' 'loaded at fixed addresses'
has dynamic 'FLAGS_1.*\<PIE\>' 'not position-independent'
has dynamic 'FLAGS.*\<BIND_NOW\>' 'functions are bound late (no BIND_NOW)'
has segments 'GNU_RELRO' 'its tables stay writable (no RELRO)'
has segments 'GNU_STACK.* RW ' 'the stack may run'
lacks segments '(LOAD|GNU_STACK).* RWE ' 'a segment is writable and runs'
has symbols '__stack_chk_fail' 'no stack protector'
# Those of glibc that watch the size of what they write to.
for call in memcpy snprintf vsnprintf fprintf; do
	has symbols "__${call}_chk" "$call is not fortified"
done
lacks dynamic '\((RPATH|RUNPATH)\)' 'it looks for libraries where it should not'
lacks dynamic 'TEXTREL' 'its code is changed at the start'
lacks dynamic 'NEEDED.*\[(libsqlite3|libm|libutf8proc|libqrencode)\.' \
	'a library is loaded at every start'
# RELRO covers the global offset table only together with BIND_NOW, and only
# when nothing else is left in writable pages: no .got.plt of its own.
if readelf -SW shoal | grep -q ' \.got\.plt'; then
	fail 'a table of addresses stays writable (.got.plt)'
fi
if grep -aq -e "$OLDPWD/" shoal; then
	fail 'it holds the path of the folder where it was built'
fi
[ "$bad" -eq 0 ] || exit 1
echo "note: $(grep -c '_chk@' symbols) calls fortified"
