/* canvas.h: the whole terminal as something to draw on, and its keys. */
#ifndef SHOAL_DESK_CANVAS_H
#define SHOAL_DESK_CANVAS_H

#include "base/fault.h"
#include "desk/brush.h"
#include "desk/signals.h"

#include <stdio.h>

/*
 * The only room that sees ncurses, which is loaded when a canvas is opened,
 * and the only one that asks for UTF-8 in the locale (of characters alone:
 * numbers stay those of the C locale). While it is open, signals come as
 * events, so that the terminal is put back before the program ends or stops.
 */
enum { CANVAS_COLUMNS = 80, CANVAS_ROWS = 24 }; /* at least */

enum canvas_event {
	CANVAS_TEXT, /* one character, in UTF-8 */
	CANVAS_ENTER,
	CANVAS_TAB,
	CANVAS_BACK_TAB,
	CANVAS_UP,
	CANVAS_DOWN,
	CANVAS_LEFT,
	CANVAS_RIGHT,
	CANVAS_ERASE,
	CANVAS_ESCAPE,
	CANVAS_RESIZED, /* or drawn over: draw again */
	CANVAS_OTHER,	/* a key without a meaning */
	CANVAS_SIGNAL,	/* asked to end */
	CANVAS_CLOSED	/* the terminal is gone */
};

struct canvas_key {
	enum canvas_event event;
	char text[8]; /* of CANVAS_TEXT */
	int signal;   /* of CANVAS_SIGNAL */
};

struct canvas {
	void *screen, *window; /* of ncurses; NULL when closed */
	struct signals signals;
	int in; /* where keys come in */
	int rows, columns;
};

/*
 * Takes the terminal over. False when it cannot be drawn on or is smaller than
 * CANVAS_COLUMNS x CANVAS_ROWS, or the library is missing; `why` has the
 * sentence then, FAULT_INTERNAL with the package that is missing.
 */
bool canvas_open(struct canvas *canvas, FILE *in, FILE *out, struct fault *why);

/* The terminal as before. Harmless when it is closed. */
void canvas_close(struct canvas *canvas);

/* Whether the terminal is large enough now. */
bool canvas_fits(const struct canvas *canvas);

void canvas_erase(struct canvas *canvas);

/* Draws on it; the columns are those of the terminal, which differ from what
 * the Unicode tables say. */
struct brush canvas_brush(struct canvas *canvas);

/* Shows what was drawn, with the cursor there. */
void canvas_show(struct canvas *canvas, int row, int column);

/* Forgets what was typed ahead. */
void canvas_forget(const struct canvas *canvas);

/* Waits for a key or a signal. Stopping and going on is done within. */
void canvas_wait(struct canvas *canvas, struct canvas_key *key);

#endif
