/* memory.h: memory that grows with what it holds. */
#ifndef SHOAL_BASE_MEMORY_H
#define SHOAL_BASE_MEMORY_H

#include <stdbool.h>
#include <stddef.h>

/*
 * Makes room for at least `needed` elements of `size` bytes. `*memory` has room
 * for `*room` of them (NULL and 0 at first) and is the caller's to free; it
 * doubles, so that elements may come one by one. False when there is no memory:
 * everything is then as before.
 */
bool memory_grow(void **memory, size_t *room, size_t needed, size_t size);

#endif
