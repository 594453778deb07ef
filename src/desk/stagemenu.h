/* stagemenu.h: what can be done besides answering. */
#ifndef SHOAL_DESK_STAGEMENU_H
#define SHOAL_DESK_STAGEMENU_H

#include "desk/stage.h"

/* Go on, another grader, finish, take back the last person, drop this one; true
 * when it is to be dropped. What else was chosen is done. */
bool stagemenu(struct stage *stage);

/* Asks whether to drop the person. */
bool stagemenu_drop(struct stage *stage);

#endif
