/* funnelchart.c: shares by size, with the limits chance keeps to. */
#include "paper/funnelchart.h"

#include "base/maths.h"
#include "counts/funnel.h"
#include "paper/chart.h"

enum {
	LEFT = 38,
	RIGHT = CHART_WIDTH - 10,
	UPPER = 12,
	LOWER = 210,
	HEIGHT = 246,
	STEPS = 60 /* of a line */
};

/* 1, 2 or 5 times a power of ten, four to eight of which make `most`. */
static double
step_of(double most)
{
	double power = 1, times;

	while (power * 40 <= most)
		power *= 10;
	while (power * 4 > most)
		power /= 10;
	times = most / 4 / power;
	return power * (times >= 5 ? 5 : times >= 2 ? 2 : 1);
}

static double
across(const struct funnelchart *chart, double people)
{
	return LEFT + (RIGHT - LEFT) * people / (double)chart->across;
}

static double
upwards(const struct funnelchart *chart, double share)
{
	return LOWER -
	       (LOWER - UPPER) *
		       maths_smaller(maths_larger(share / chart->top, 0), 1);
}

static void
draw_scales(const struct funnelchart *chart)
{
	double step = step_of((double)chart->across);
	char text[24];

	fprintf(chart->out, "<path d=\"M%d %dV%dH%d\" %s />", LEFT, UPPER,
		LOWER, RIGHT, "fill=\"none\" stroke=\"#1b2428\"");
	for (int i = 0; i * step <= (double)chart->across; i++) {
		snprintf(text, sizeof text, "%.0f", i * step);
		chart_text(chart->out, across(chart, i * step), LOWER + 14,
			   "middle", 12, text);
	}
	step = step_of(chart->top);
	for (int i = 0; i * step <= chart->top * 1.0001; i++) {
		snprintf(text, sizeof text, "%g %%", i * step * 100);
		chart_text(chart->out, LEFT - 4, upwards(chart, i * step) + 4,
			   "end", 8, text);
	}
	chart_text(chart->out, (LEFT + RIGHT) / 2.0, HEIGHT - 5, "middle", 40,
		   "people screened at the station");
}

static void
draw_limit(const struct funnelchart *chart, double chance, const char *look)
{
	long long before = 0;
	char move = 'M';

	fprintf(chart->out, "\n<path fill=\"none\" stroke=\"#123a4a\" %s d=\"",
		look);
	for (int i = 1; i <= STEPS; i++) {
		double part = (double)i * i / (STEPS * STEPS);
		long long of = (long long)(part * (double)chart->across + 0.5);
		double limit;

		if (of == before)
			continue;
		before = of;
		limit = funnel_limit(of, chart->share, chance);
		if (limit < 0 || limit > chart->top)
			continue;
		fprintf(chart->out, "%c%.1f %.1f", move,
			across(chart, (double)of), upwards(chart, limit));
		move = 'L';
	}
	fputs("\" />", chart->out);
}

void
funnelchart_begin(struct funnelchart *chart, FILE *out, const char *title,
		  double share, long long most, double highest)
{
	double step = step_of((double)most);
	double top = maths_smaller(maths_larger(highest, share * 2) * 1.05, 1);

	chart->out = out;
	chart->share = share;
	chart->across = (long long)(maths_ceiling((double)most / step) * step);
	if (chart->across < 4)
		chart->across = 4;
	chart->top = maths_smaller(
		maths_ceiling(top / step_of(top)) * step_of(top), 1);
	chart_begin(out, HEIGHT, title);
	draw_scales(chart);
	fprintf(out, "<path d=\"M%d %.1fH%d\" %s />", LEFT,
		upwards(chart, share), RIGHT, "stroke=\"#1b2428\"");
	draw_limit(chart, 0.025, "stroke-dasharray=\"4 3\"");
	draw_limit(chart, 0.975, "stroke-dasharray=\"4 3\"");
	draw_limit(chart, 0.001, "");
	draw_limit(chart, 0.999, "");
	fputc('\n', out);
}

void
funnelchart_point(const struct funnelchart *chart, const char *label,
		  long long count, long long of)
{
	double x = across(chart, (double)of);
	double y = upwards(chart, (double)count / (double)of);

	fprintf(chart->out,
		"<circle cx=\"%.1f\" cy=\"%.1f\" r=\"3\" fill=\"%s\" "
		"stroke=\"#123a4a\" />",
		x, y, label == NULL ? "#fff" : "#123a4a");
	if (label != NULL)
		chart_text(chart->out, x > RIGHT - 40 ? x - 5 : x + 5, y + 4,
			   x > RIGHT - 40 ? "end" : "start", 8, label);
}

void
funnelchart_end(const struct funnelchart *chart)
{
	chart_end(chart->out);
}
