/* unfinished.h: a person who was begun and is in no count. */
#ifndef SHOAL_DESK_UNFINISHED_H
#define SHOAL_DESK_UNFINISHED_H

#include "desk/desk.h"

/*
 * Says on the desk's talk stream who waits in the draft of the station's
 * folder, when the day is closed or copied: nobody else would think of the
 * person before the next camp. Says nothing when there is none. It only looks:
 * another program may be at work on the same person.
 */
void unfinished_tell(struct desk *desk);

#endif
