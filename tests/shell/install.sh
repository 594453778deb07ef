#!/bin/bash
# What make install puts down: a program, a manual without complaints, a
# completion that bash takes.
. "$SHOAL_TREE/tests/shell/lib.sh"
build=$(dirname "$SHOAL_PLAIN")
make -s -C "$SHOAL_TREE" B="$build" CC=gcc WERROR=-Werror PREFIX=/usr \
	DESTDIR="$PWD/root" install
root/usr/bin/shoal --version | grep -q '^shoal [0-9]' || fail 'the program'
mandoc -T lint -W warning root/usr/share/man/man1/shoal.1 ||
	fail 'the manual has faults'
mandoc -T ascii root/usr/share/man/man1/shoal.1 |
	sed "s/.$(printf '\b')//g" > manual
says manual 'shoal screen'
says manual 'EXIT STATUS'
bash -n root/usr/share/bash-completion/completions/shoal || fail 'completion'
bash -c '. root/usr/share/bash-completion/completions/shoal
COMP_WORDS=(shoal scr) COMP_CWORD=1; _shoal; [ "${COMPREPLY[*]}" = screen ]' ||
	fail 'completion of a command'
bash -c '. root/usr/share/bash-completion/completions/shoal
COMP_WORDS=(shoal tally --clo) COMP_CWORD=2; _shoal
[ "${COMPREPLY[*]}" = --close ]' || fail 'completion of an option'
for file in LICENSE tally.sql tally.csv-metadata.json; do
	[ -s root/usr/share/doc/shoal/$file ] || fail "no $file"
done
# Hardened as Debian builds.
readelf -lW root/usr/bin/shoal > segments
readelf -dW root/usr/bin/shoal > dynamic
says segments GNU_RELRO
says dynamic NOW
readelf -hW root/usr/bin/shoal | grep -q 'DYN' || fail 'not a PIE'
