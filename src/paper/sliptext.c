/* sliptext.c: the slip as plain text. */
#include "paper/slip.h"

#include "base/text.h"
#include "paper/drawing.h"
#include "paper/replyform.h"
#include "paper/slipfacts.h"
#include "paper/textpage.h"

#include <string.h>

enum { INDENT = 2, LABEL_SIZE = 1024 };

/* The four boxes of one eye, and how far apart the eyes stand. */
static const char quadrant_boxes[] = "[_] [_] [_] [_]";
enum { EYE_APART = 19 };

static const char *const eye_keys[EYE_COUNT] = {"slip.right_eye", "slip.left_"
								  "eye"};

/* One part on its way to the page. */
struct printing {
	const struct text_page *page;
	const char *heading; /* not printed yet, or NULL */
	const char *mark;
	int indent;
};

static const char *
words(const struct text_page *page, const char *key)
{
	const char *text = wording_text(page->wording, key);

	return text == NULL ? key : text;
}

/* The right eye stands on the left whatever the language: a line that begins
 * with this mark (U+200E) is laid out from the left. */
static const char *
left_first(const struct text_page *page)
{
	return wording_is_rtl(page->wording) ? "\xe2\x80\x8e" : "";
}

static void
print_phrase(void *context, const struct phrase *phrase)
{
	struct printing *to = context;

	if (to->heading != NULL) {
		fputc('\n', to->page->out);
		page_write_text(to->page, words(to->page, to->heading), "", 0);
		to->heading = NULL;
	}
	page_write_phrase(to->page, phrase, to->mark, to->indent);
}

/* A part with its heading; nothing when the part is empty. */
static void
print_part(const struct text_page *page, const struct slip *slip,
	   enum slip_part part)
{
	const char *heading = slip_heading(slip, part);
	struct printing to = {page, heading, heading == NULL ? "" : "- ",
			      heading == NULL ? 0 : INDENT};

	slip_visit(slip, part, print_phrase, &to);
}

static void
print_number(const struct text_page *page, const struct slip *slip)
{
	char number[REFNUM_SIZE];

	fputc('\n', page->out);
	refnum_write(slip->visit->number, number);
	if (number[0] == '\0')
		page_write_blank(page, words(page, "slip.number"), 0);
	else
		fprintf(page->out, "%s\n", number);
	fputc('\n', page->out);
}

static void
print_patient(const struct text_page *page, const struct slip *slip)
{
	page_write_rule(page, '=');
	print_part(page, slip, SLIP_HEADLINE);
	print_part(page, slip, SLIP_WHEN);
	print_part(page, slip, SLIP_STATE);
	page_write_rule(page, '=');
	print_number(page, slip);
	print_part(page, slip, SLIP_NAME);
	print_part(page, slip, SLIP_MESSAGE);
	fputc('\n', page->out);
	print_part(page, slip, SLIP_WHERE);
	print_part(page, slip, SLIP_AT_ONCE);
	print_part(page, slip, SLIP_ENDING);
}

static void
print_eye(const struct text_page *page, const struct slip *slip, enum eye eye)
{
	enum depth depth = visit_depth(slip->visit, eye);
	bool right = eye == EYE_RIGHT;

	fputc('\n', page->out);
	page_write_text(page, words(page, eye_keys[eye]), "", 0);
	print_part(page, slip, right ? SLIP_DEPTH_RIGHT : SLIP_DEPTH_LEFT);
	if (depth_is_graded(depth)) {
		fputs(left_first(page), page->out);
		drawing_write_text(depth, page->out);
		fputc('\n', page->out);
	}
	print_part(page, slip,
		   right ? SLIP_PRESSURE_RIGHT : SLIP_PRESSURE_LEFT);
	print_part(page, slip,
		   right ? SLIP_FINDINGS_RIGHT : SLIP_FINDINGS_LEFT);
}

static void
print_eyes(const struct text_page *page, const struct slip *slip)
{
	print_eye(page, slip, EYE_RIGHT);
	print_eye(page, slip, EYE_LEFT);
	fputc('\n', page->out);
	if (depth_is_graded(visit_worse_depth(slip->visit)))
		page_write_text(page, words(page, "eye.drawing"), "", 0);
	print_part(page, slip, SLIP_REPORTS);
}

static void
print_clinic(const struct text_page *page, const struct slip *slip)
{
	static const enum slip_part parts[] = {
		SLIP_DECIDING, SLIP_OTHERS,   SLIP_ADVICE,
		SLIP_NOT_DONE, SLIP_CAUTIONS,
	};

	fputc('\n', page->out);
	page_write_rule(page, '-');
	page_write_text(page, words(page, "slip.part_clinic"), "", 0);
	fputc('\n', page->out);
	print_part(page, slip, SLIP_URGENCY);
	print_part(page, slip, SLIP_PERSON);
	print_part(page, slip, SLIP_CAMP);
	print_eyes(page, slip);
	for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
		print_part(page, slip, parts[i]);
	fputc('\n', page->out);
	print_part(page, slip, SLIP_POLICY);
	print_part(page, slip, SLIP_CONSENT);
}

/* --- the reply --------------------------------------------------------- */

static void
gather_options(const struct text_page *page,
	       const struct reply_question *question, const char **option)
{
	for (size_t i = 0; i < REPLY_OPTIONS_MOST; i++)
		option[i] = question->option[i] == NULL
				    ? NULL
				    : words(page, question->option[i]);
}

static void
print_structures(const struct text_page *page,
		 const struct reply_question *question, int eyes)
{
	for (size_t i = 0;
	     i < REPLY_OPTIONS_MOST && question->option[i] != NULL; i++) {
		char boxes[LABEL_SIZE];
		int at = snprintf(boxes, sizeof boxes, "%-*s%-*s", EYE_APART,
				  quadrant_boxes, eyes > 1 ? EYE_APART : 0,
				  eyes > 1 ? quadrant_boxes : "");

		fputs(left_first(page), page->out);
		fputs(boxes, page->out);
		text_write_wrapped(page->out, words(page, question->option[i]),
				   page->columns, at, at);
	}
}

static void
print_box_order(const struct text_page *page)
{
	char list[LABEL_SIZE] = "";
	struct phrase phrase = {"reply.box_order",
				{{"quadrants", list, false}}};

	for (int i = 0; i < REPLY_QUADRANTS; i++)
		phrase_join(page->wording, list, sizeof list,
			    words(page, reply_quadrants[i]));
	page_write_phrase(page, &phrase, "", 0);
}

/* Both eyes side by side where there is room. */
static void
print_quadrants(const struct text_page *page,
		const struct reply_question *question)
{
	page_write_text(page, words(page, question->key), "", 0);
	print_box_order(page);
	if (page->columns >= SLIP_COLUMNS) {
		const char *right = words(page, "slip.right_eye");

		fprintf(page->out, "%s%s%*s%s%s\n", left_first(page), right,
			EYE_APART - text_width(right), "", left_first(page),
			words(page, "slip.left_eye"));
		print_structures(page, question, EYE_COUNT);
		return;
	}
	for (int eye = 0; eye < EYE_COUNT; eye++) {
		page_write_text(page, words(page, eye_keys[eye]), "", 0);
		print_structures(page, question, 1);
	}
}

static void
print_question(const struct text_page *page,
	       const struct reply_question *question)
{
	const char *label = words(page, question->key);
	const char *option[REPLY_OPTIONS_MOST];

	gather_options(page, question, option);
	fputc('\n', page->out);
	if (question->scope == REPLY_QUADRANT) {
		print_quadrants(page, question);
	} else if (question->scope == REPLY_EYE) {
		page_write_text(page, label, "", 0);
		for (int eye = 0; eye < EYE_COUNT; eye++)
			if (question->has_line)
				page_write_blank(page,
						 words(page, eye_keys[eye]),
						 INDENT);
			else
				page_write_boxes(page,
						 words(page, eye_keys[eye]),
						 option, REPLY_OPTIONS_MOST,
						 INDENT);
	} else if (question->has_line) {
		page_write_blank(page, label, 0);
	} else {
		page_write_text(page, label, "", 0);
		page_write_boxes(page, "", option, REPLY_OPTIONS_MOST, INDENT);
	}
}

static void
print_reply(const struct text_page *page, const struct slip *slip)
{
	fputc('\n', page->out);
	page_write_rule(page, '-');
	page_write_text(page, words(page, "reply.tear_off"), "", 0);
	page_write_rule(page, '-');
	page_write_text(page, words(page, "reply.title"), "", 0);
	print_number(page, slip);
	print_part(page, slip, SLIP_SENDER);
	print_part(page, slip, SLIP_REPLY_CONSENT);
	for (size_t i = 0; i < reply_question_count; i++)
		print_question(page, &reply_questions[i]);
}

bool
slip_write_text(const struct slip *slip, int columns, FILE *out,
		struct fault *why)
{
	struct text_page page = {slip->wording, columns, out};

	if (!slip_check(slip, why))
		return false;
	print_patient(&page, slip);
	print_clinic(&page, slip);
	if (slip_has_reply(slip))
		print_reply(&page, slip);
	return true;
}
