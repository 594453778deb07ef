/* stage.h: the screen during a session: shown, asked, left and come back to. */
#ifndef SHOAL_DESK_STAGE_H
#define SHOAL_DESK_STAGE_H

#include "desk/ask.h"
#include "desk/canvas.h"
#include "desk/keying.h"
#include "desk/page.h"
#include "desk/session.h"

#include <stdio.h>

/* How it ended. */
enum stage_outcome {
	STAGE_FINISHED, /* by the nurse */
	STAGE_LINES,	/* the terminal cannot (any longer) be drawn on */
	STAGE_ASKED,	/* a signal asked the program to end */
	STAGE_FAILED	/* with a fault */
};

struct stage {
	struct session *session;
	const struct asker *asker; /* for the little that is asked in lines */
	struct canvas canvas;
	struct form *form;
	struct keying keying;
	struct page page;
	bool twins_shown; /* for the name as it stands */
	bool over;	  /* nobody is to be entered any more */
	enum stage_outcome outcome;
	int asked;	  /* STAGE_ASKED: the signal */
	struct fault why; /* STAGE_FAILED; STAGE_LINES: why not */
};

void stage_end(struct stage *stage, enum stage_outcome how);

/* Draws the person as it stands. */
void stage_draw(struct stage *stage);

/* Waits for a key. A signal or a closed terminal ends the stage; in a window
 * that is too small nobody sees what a key would do, so none counts. */
enum canvas_event stage_wait(struct stage *stage, struct canvas_key *key);

/* The lines to show in the place of the choices; NULL when there is no
 * memory. */
FILE *stage_write(struct stage *stage);

/* Shows them until one of the characters is typed, which is handed back; Enter
 * is '\n' and Esc '\033' in `allowed`. What was typed ahead is no answer. 0
 * when the stage has ended. */
char stage_ask(struct stage *stage, const char *keys, const char *allowed);

/* Shows a sentence until Enter. */
void stage_tell(struct stage *stage, const char *sentence);

/* Explains the question at hand until any key. */
void stage_help(struct stage *stage);

/* Leaves the terminal to lines, and takes it over again; a window that became
 * too small meanwhile ends the stage with STAGE_LINES. */
void stage_leave(struct stage *stage);
void stage_return(struct stage *stage);

#endif
