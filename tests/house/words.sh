#!/bin/sh
# Refuse notes to oneself. The brackets keep this file from finding itself.
set -u
git grep --untracked -nIE -e '\b(TOD[O]|FIXM[E]|XX[X])\b' -- .
case $? in
0) exit 1 ;;
1) exit 0 ;;
*) echo "the search itself failed"; exit 1 ;;
esac
