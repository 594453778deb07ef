/* maths.h: logarithms and their kin, loaded when first needed. */
#ifndef SHOAL_BASE_MATHS_H
#define SHOAL_BASE_MATHS_H

/*
 * The functions of the C library of mathematics. It is loaded when the first
 * of them is called: only planning, yields and reports need it, and at every
 * start it would take a tenth of the time of a decision. It is a part of the
 * package libc6, which every program here needs; where it is missing all the
 * same the program stops rather than go on without numbers.
 *
 * Square roots and what can be done in a line need no library: sqrt of math.h
 * is one instruction.
 */
double maths_exp(double x);
double maths_log(double x);
double maths_power(double x, double y);
/* The logarithm of the gamma function, for x above 0. */
double maths_log_gamma(double x);

/* The least whole number not below x; x within what a long long holds. */
double maths_ceiling(double x);

/* The nearest whole number, halves away from 0; x within a long. */
long maths_round(double x);

double maths_smaller(double x, double y);
double maths_larger(double x, double y);

#endif
