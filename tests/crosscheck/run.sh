#!/bin/sh
# Compare the program's arithmetic with R's on random inputs.
#
#   sh tests/crosscheck/run.sh FIGURES   FIGURES is the built figures.c
#   SEED=7 sh ...                        other inputs than today's
# Not part of `make check`: R is large. The last line is "N passed, N failed".
set -eu
SEED=${SEED:-$(date +%Y%m%d)}
if ! Rscript -e 'library(survival); library(vcd)' > /dev/null 2>&1; then
	echo 'R is missing here: apt install r-base-core r-cran-survival r-cran-vcd'
	exit 1
fi
echo "seed $SEED"
exec Rscript --vanilla tests/crosscheck/compare.R "$1" "$SEED"
