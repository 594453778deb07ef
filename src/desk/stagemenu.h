/* stagemenu.h: what can be done besides answering. */
#ifndef SHOAL_DESK_STAGEMENU_H
#define SHOAL_DESK_STAGEMENU_H

#include "desk/stage.h"

/* Go on, another grader, finish, take back the last person, drop this one; true
 * when it is to be dropped. What else was chosen is done. */
bool stagemenu(struct stage *stage);

/* Asks whether to drop the person; for who has to go today that is said with
 * it. */
bool stagemenu_drop(struct stage *stage);

/* Whether the stage goes on. An interrupt from the keyboard that would lose
 * the person, since there is no draft, is asked about; a second one ends. */
bool stagemenu_stays(struct stage *stage);

#endif
