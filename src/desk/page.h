/* page.h: one person on one screen. */
#ifndef SHOAL_DESK_PAGE_H
#define SHOAL_DESK_PAGE_H

#include "desk/brush.h"
#include "desk/keying.h"
#include "desk/session.h"

enum { PAGE_LINES_SIZE = 4000 };

struct page {
	const struct session *session;
	const struct keying *keying;
	/* In the place of the decision while nothing is answered: who was saved
	 * last. Lines, "" for none; in reverse when that person must go today.
	 */
	char saved[PAGE_LINES_SIZE];
	bool saved_for_today;
	/* In the place of the choices: a question or a hint, with the keys that
	 * answer it. Lines, "" for none. */
	char over[PAGE_LINES_SIZE];
	const char *keys;
};

/* Draws everything; the cursor belongs at `*row`, `*column`. */
void page_draw(const struct page *page, const struct brush *brush, int *row,
	       int *column);

/* Draws what may be typed at the question, or at the end the whole decision. */
void page_draw_help(const struct page *page, const struct brush *brush);

/* Draws that the window is too small. */
void page_draw_small(const struct brush *brush);

#endif
