/* progress.c: how far it is, on one line of a terminal. */
#include "desk/progress.h"

enum {
	CALLS_BETWEEN = 16, /* looks at the clock */
	MILLISECONDS_SILENT = 1000,
	MILLISECONDS_BETWEEN = 250
};

void
progress_begin(struct progress *progress, struct desk *desk)
{
	*progress = (struct progress){.desk = desk};
	if (desk->talk_can_rewrite && desk->milliseconds != NULL)
		progress->began = desk->milliseconds();
	else
		progress->desk = NULL;
}

void
progress_show(struct progress *progress, long long files, long long tallies)
{
	struct desk *desk = progress->desk;
	long long now;
	int width;

	if (desk == NULL || progress->calls++ % CALLS_BETWEEN != 0)
		return;
	now = desk->milliseconds();
	if (now - progress->began < MILLISECONDS_SILENT ||
	    now - progress->shown < MILLISECONDS_BETWEEN)
		return;
	progress->shown = now;
	width = fprintf(desk->talk, "\rReading: file %lld, tally %lld", files,
			tallies);
	if (width > 1)
		progress->width = width - 1;
	fflush(desk->talk);
}

void
progress_end(struct progress *progress)
{
	if (progress->width == 0)
		return;
	fprintf(progress->desk->talk, "\r%*s\r", progress->width, "");
	fflush(progress->desk->talk);
	progress->width = 0;
}
