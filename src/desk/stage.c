/* stage.c: the screen during a session: shown, asked, left and come back to. */
#include "desk/stage.h"

#include "base/text.h"
#include "desk/placing.h"

#include <string.h>

void
stage_end(struct stage *stage, enum stage_outcome how)
{
	stage->over = true;
	stage->outcome = how;
}

void
stage_draw(struct stage *stage)
{
	struct brush brush = canvas_brush(&stage->canvas);
	int row = 0, column = 0;

	canvas_erase(&stage->canvas);
	if (canvas_fits(&stage->canvas))
		page_draw(&stage->page, &brush, &row, &column);
	else
		page_draw_small(&brush);
	canvas_show(&stage->canvas, row, column);
}

enum canvas_event
stage_wait(struct stage *stage, struct canvas_key *key)
{
	canvas_wait(&stage->canvas, key);
	if (key->event == CANVAS_SIGNAL) {
		stage->asked = key->signal;
		stage_end(stage, STAGE_ASKED);
	} else if (key->event == CANVAS_CLOSED) {
		fault_set(&stage->why, FAULT_INPUT, "the terminal was closed%s",
			  draft_holds(&stage->session->draft) ? "; the "
								"unfinished "
								"person is "
								"offered at "
								"the next start"
							      : "");
		stage_end(stage, STAGE_FAILED);
	} else if (!canvas_fits(&stage->canvas)) {
		key->event = CANVAS_OTHER;
	}
	return key->event;
}

char
stage_ask(struct stage *stage, const char *keys, const char *allowed)
{
	struct canvas_key key;
	char typed = '\0';

	stage->page.keys = keys;
	canvas_forget(&stage->canvas);
	while (!stage->over && typed == '\0') {
		stage_draw(stage);
		switch (stage_wait(stage, &key)) {
		case CANVAS_ENTER:
			typed = '\n';
			break;
		case CANVAS_ESCAPE:
			typed = '\033';
			break;
		case CANVAS_TEXT:
			typed = key.text[1] == '\0' ? key.text[0] : '\0';
			break;
		default:
			break;
		}
		if (typed != '\0' && strchr(allowed, typed) == NULL)
			typed = '\0';
	}
	stage->page.over[0] = '\0';
	return typed;
}

FILE *
stage_write(struct stage *stage)
{
	stage->page.over[0] = '\0';
	return fmemopen(stage->page.over, sizeof stage->page.over, "w");
}

void
stage_tell(struct stage *stage, const char *sentence)
{
	FILE *out = stage_write(stage);

	if (out == NULL)
		return;
	text_write_wrapped(out, sentence, PLACING_COLUMNS, 0, 0);
	fclose(out);
	stage_ask(stage, "Enter goes on", "\n");
}

void
stage_help(struct stage *stage)
{
	struct canvas_key key = {CANVAS_RESIZED, "", 0};

	while (!stage->over && key.event == CANVAS_RESIZED) {
		struct brush brush = canvas_brush(&stage->canvas);

		canvas_erase(&stage->canvas);
		if (canvas_fits(&stage->canvas))
			page_draw_help(&stage->page, &brush);
		else
			page_draw_small(&brush);
		canvas_show(&stage->canvas, 0, 0);
		stage_wait(stage, &key);
	}
}

void
stage_leave(struct stage *stage)
{
	canvas_close(&stage->canvas);
}

void
stage_return(struct stage *stage)
{
	if (!canvas_open(&stage->canvas, stage->asker->in, stage->asker->talk,
			 &stage->why))
		stage_end(stage, STAGE_LINES);
}
