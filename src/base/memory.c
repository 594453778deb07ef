/* memory.c: memory that grows with what it holds. */
#include "base/memory.h"

#include <stdint.h>
#include <stdlib.h>

enum { LEAST = 64 };

bool
memory_grow(void **memory, size_t *room, size_t needed, size_t size)
{
	size_t more = *room == 0 ? LEAST : *room;
	void *larger;

	while (more < needed && more <= SIZE_MAX / size / 2)
		more *= 2;
	if (more < needed)
		return false;
	if (more == *room)
		return true;
	larger = realloc(*memory, more * size);
	if (larger == NULL)
		return false;
	*memory = larger;
	*room = more;
	return true;
}
