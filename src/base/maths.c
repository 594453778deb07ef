/* maths.c: logarithms and their kin, loaded when first needed. */
#include "base/maths.h"

#include "base/library.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void
look_up(const char *name, void *function)
{
	if (!library_find(library_open("libm.so.6"), name, function)) {
		fprintf(stderr,
			"shoal: '%s' of the C library cannot be loaded; is "
			"there enough memory?\n",
			name);
		exit(EXIT_FAILURE);
	}
}

typedef double of_one(double);

static double
call(const char *name, double x)
{
	of_one *function;

	look_up(name, &function);
	return function(x);
}

double
maths_exp(double x)
{
	return call("exp", x);
}

double
maths_log(double x)
{
	return call("log", x);
}

double
maths_log_gamma(double x)
{
	return call("lgamma", x);
}

double
maths_power(double x, double y)
{
	double (*function)(double, double);

	look_up("pow", &function);
	return function(x, y);
}

double
maths_ceiling(double x)
{
	double whole = (double)(long long)x;

	return whole < x ? whole + 1 : whole;
}

long
maths_round(double x)
{
	return (long)(x < 0 ? x - 0.5 : x + 0.5);
}

double
maths_smaller(double x, double y)
{
	return x < y ? x : y;
}

double
maths_larger(double x, double y)
{
	return x > y ? x : y;
}
