/* library.h: shared libraries that are loaded when they are first needed. */
#ifndef SHOAL_BASE_LIBRARY_H
#define SHOAL_BASE_LIBRARY_H

#include <stdbool.h>

/* The library of that name ("libsodium.so.23"), which stays loaded until the
 * program ends; NULL when it is not there, or no memory for it. */
void *library_open(const char *name);

/* Puts the address of one of its functions into a pointer to that kind of
 * function, which `function` points to. False, and a NULL pointer, when there
 * is none, or when `library` is NULL. */
bool library_find(void *library, const char *name, void *function);

#endif
