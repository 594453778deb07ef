/* canvas.c: the whole terminal as something to draw on, and its keys. */
#define NCURSES_NOMACROS 1
#define NCURSES_WIDECHAR 1
#include "desk/canvas.h"

#include "base/library.h"

#include <curses.h>
#include <errno.h>
#include <locale.h>
#include <poll.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>
#include <wchar.h>

/* clang-format off */
#define CURSES_FUNCTIONS(FUNCTION) \
	FUNCTION(newterm) FUNCTION(delscreen) FUNCTION(endwin) \
	FUNCTION(newwin) FUNCTION(delwin) FUNCTION(keypad) FUNCTION(nodelay) \
	FUNCTION(cbreak) FUNCTION(noecho) FUNCTION(set_escdelay) \
	FUNCTION(wget_wch) FUNCTION(wmove) FUNCTION(waddnwstr) \
	FUNCTION(wattrset) FUNCTION(werase) FUNCTION(wrefresh) \
	FUNCTION(clearok) FUNCTION(resizeterm) FUNCTION(wresize) \
	FUNCTION(flushinp) FUNCTION(tigetstr)
/* clang-format on */

/* Each under its own type from the header. */
struct curses {
#define CURSES_MEMBER(name) __typeof__ (&(name))(name);
	CURSES_FUNCTIONS(CURSES_MEMBER)
#undef CURSES_MEMBER
};

enum { ESCAPE_WAIT_MS = 50, KEY_ESCAPE = 27, KEY_RUBOUT = 127 };

/* The library, which stays loaded until the program ends; NULL when it is not
 * there. The pointers are the same whoever asks. */
static const struct curses *
curses(void)
{
	static struct curses found;
	void *library;

	if (found.tigetstr != NULL)
		return &found;
	library = library_open("libncursesw.so.6");
#define CURSES_LOOK_UP(name)                            \
	if (!library_find(library, #name, &found.name)) \
		return NULL;
	CURSES_FUNCTIONS(CURSES_LOOK_UP)
#undef CURSES_LOOK_UP
	return &found;
}

/* --- opening and closing -------------------------------------------------- */

static bool
measure(struct canvas *canvas)
{
	struct winsize size;

	if (ioctl(canvas->in, TIOCGWINSZ, &size) != 0)
		return false;
	canvas->rows = size.ws_row;
	canvas->columns = size.ws_col;
	return true;
}

bool
canvas_fits(const struct canvas *canvas)
{
	return canvas->rows >= CANVAS_ROWS && canvas->columns >= CANVAS_COLUMNS;
}

/* What can be known before the terminal is touched. */
static bool
check(struct canvas *canvas, FILE *in, FILE *out, struct fault *why)
{
	canvas->screen = NULL;
	canvas->window = NULL;
	canvas->signals.from = -1;
	canvas->in = fileno(in);
	if (isatty(canvas->in) == 0 || isatty(fileno(out)) == 0)
		return fault_set(why, FAULT_INPUT, "this is no terminal");
	if (!measure(canvas) || !canvas_fits(canvas))
		return fault_set(why, FAULT_INPUT,
				 "this window is smaller than %d columns by %d "
				 "rows",
				 CANVAS_COLUMNS, CANVAS_ROWS);
	if (curses() == NULL)
		return fault_set(why, FAULT_INTERNAL,
				 "there is no screen form without the library "
				 "ncursesw; install the package libncursesw6");
	if (setlocale(LC_CTYPE, "C.UTF-8") == NULL)
		return fault_set(why, FAULT_INTERNAL,
				 "there is no screen form without the locale "
				 "C.UTF-8; install the package libc-bin");
	return true;
}

static bool
start(struct canvas *canvas, FILE *in, FILE *out)
{
	const struct curses *with = curses();

	canvas->screen = with->newterm(NULL, out, in);
	if (canvas->screen == NULL)
		return false;
	if (with->tigetstr("cup") != NULL)
		canvas->window = with->newwin(0, 0, 0, 0);
	return canvas->window != NULL;
}

bool
canvas_open(struct canvas *canvas, FILE *in, FILE *out, struct fault *why)
{
	const struct curses *with;

	fflush(out);
	if (!check(canvas, in, out, why))
		return false;
	with = curses();
	signals_open(&canvas->signals);
	if (!start(canvas, in, out)) {
		canvas_close(canvas);
		return fault_set(why, FAULT_INPUT,
				 "this terminal cannot be drawn on");
	}
	signals_keep(&canvas->signals);
	with->set_escdelay(ESCAPE_WAIT_MS);
	with->cbreak();
	with->noecho();
	with->keypad(canvas->window, true);
	with->nodelay(canvas->window, true);
	return true;
}

void
canvas_close(struct canvas *canvas)
{
	const struct curses *with = curses();

	if (with != NULL && canvas->screen != NULL) {
		with->endwin();
		if (canvas->window != NULL)
			with->delwin(canvas->window);
		with->delscreen(canvas->screen);
		setlocale(LC_CTYPE, "C");
	}
	canvas->window = NULL;
	canvas->screen = NULL;
	if (canvas->signals.from >= 0)
		signals_close(&canvas->signals);
}

/* --- drawing -------------------------------------------------------------- */

void
canvas_erase(struct canvas *canvas)
{
	curses()->werase(canvas->window);
}

/* What cannot be shown becomes a question mark. */
static const char *
next_wide(const char *text, wchar_t *wide, int *width)
{
	mbstate_t state;
	size_t used;

	memset(&state, 0, sizeof state);
	used = mbrtowc(wide, text, strlen(text), &state);
	if (used == 0 || used == (size_t)-1 || used == (size_t)-2) {
		used = 1;
		*wide = L'?';
	}
	*width = wcwidth(*wide);
	if (*width < 0) {
		*width = 1;
		*wide = L'?';
	}
	return text + used;
}

static int
width_of(const char *text)
{
	int columns = 0, width;
	wchar_t wide;

	for (; *text != '\0'; columns += width)
		text = next_wide(text, &wide, &width);
	return columns;
}

static int
attributes(unsigned style)
{
	unsigned bold = (style & BRUSH_BOLD) != 0 ? A_BOLD : A_NORMAL;
	unsigned reverse = (style & BRUSH_REVERSE) != 0 ? A_REVERSE : A_NORMAL;

	return (int)(bold | reverse |
		     ((style & BRUSH_UNDERLINE) != 0 ? A_UNDERLINE : A_NORMAL));
}

static int
put(void *context, int row, int column, int width, unsigned style,
    const char *text)
{
	struct canvas *canvas = context;
	const struct curses *with = curses();
	int used = 0, one;
	wchar_t wide;

	if (row >= canvas->rows || column + width > canvas->columns)
		return 0;
	with->wattrset(canvas->window, attributes(style));
	with->wmove(canvas->window, row, column);
	while (*text != '\0') {
		text = next_wide(text, &wide, &one);
		if (used + one > width)
			break;
		with->waddnwstr(canvas->window, &wide, 1);
		used += one;
	}
	if ((style & (BRUSH_REVERSE | BRUSH_UNDERLINE)) != 0)
		for (int i = used; i < width; i++)
			with->waddnwstr(canvas->window, L" ", 1);
	with->wattrset(canvas->window, A_NORMAL);
	return used;
}

struct brush
canvas_brush(struct canvas *canvas)
{
	return (struct brush){put, width_of, canvas, canvas->rows};
}

void
canvas_show(struct canvas *canvas, int row, int column)
{
	const struct curses *with = curses();

	with->wmove(canvas->window, row, column);
	with->wrefresh(canvas->window);
}

/* --- keys ----------------------------------------------------------------- */

/* The rest of a sequence that the library does not know must not be taken for
 * what somebody typed. True when there was one. */
static bool
swallow_sequence(struct canvas *canvas)
{
	const struct curses *with = curses();
	wint_t wide;

	if (with->wget_wch(canvas->window, &wide) == ERR)
		return false;
	if (wide != L'[' && wide != L'O')
		return true;
	while (with->wget_wch(canvas->window, &wide) == OK &&
	       (wide < 0x40 || wide > 0x7e))
		;
	return true;
}

static enum canvas_event
event_of_code(wint_t code)
{
	static const struct {
		wint_t code;
		enum canvas_event event;
	} keys[] = {{KEY_ENTER, CANVAS_ENTER},	   {KEY_BTAB, CANVAS_BACK_TAB},
		    {KEY_UP, CANVAS_UP},	   {KEY_DOWN, CANVAS_DOWN},
		    {KEY_LEFT, CANVAS_LEFT},	   {KEY_RIGHT, CANVAS_RIGHT},
		    {KEY_BACKSPACE, CANVAS_ERASE}, {KEY_DC, CANVAS_ERASE},
		    {KEY_RESIZE, CANVAS_RESIZED}};

	for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
		if (keys[i].code == code)
			return keys[i].event;
	return CANVAS_OTHER;
}

static enum canvas_event
event_of_character(struct canvas *canvas, wint_t wide, char *text)
{
	mbstate_t state;
	size_t length;

	switch (wide) {
	case L'\n':
	case L'\r':
		return CANVAS_ENTER;
	case L'\t':
		return CANVAS_TAB;
	case L'\b':
	case KEY_RUBOUT:
		return CANVAS_ERASE;
	case KEY_ESCAPE:
		return swallow_sequence(canvas) ? CANVAS_OTHER : CANVAS_ESCAPE;
	default:
		break;
	}
	memset(&state, 0, sizeof state);
	length = wide < L' ' ? (size_t)-1
			     : wcrtomb(text, (wchar_t)wide, &state);
	if (length == (size_t)-1)
		return CANVAS_OTHER;
	text[length] = '\0';
	return CANVAS_TEXT;
}

static bool
read_key(struct canvas *canvas, struct canvas_key *key)
{
	wint_t wide;
	int kind = curses()->wget_wch(canvas->window, &wide);

	if (kind == KEY_CODE_YES)
		key->event = event_of_code(wide);
	else if (kind == OK)
		key->event = event_of_character(canvas, wide, key->text);
	return kind != ERR;
}

/* Everything is drawn anew, in the size that the terminal has now. */
static void
draw_anew(struct canvas *canvas)
{
	const struct curses *with = curses();

	if (measure(canvas) && canvas->rows > 0 && canvas->columns > 0) {
		with->resizeterm(canvas->rows, canvas->columns);
		with->wresize(canvas->window, canvas->rows, canvas->columns);
	}
	with->clearok(canvas->window, true);
}

static bool
read_signal(struct canvas *canvas, struct canvas_key *key)
{
	key->signal = signals_next(&canvas->signals);
	key->event = CANVAS_RESIZED;
	switch (key->signal) {
	case 0:
		return false;
	case SIGTSTP:
		curses()->endwin();
		signals_stop();
		draw_anew(canvas);
		break;
	case SIGWINCH:
	case SIGCONT:
		draw_anew(canvas);
		break;
	default:
		key->event = CANVAS_SIGNAL;
	}
	return true;
}

void
canvas_forget(const struct canvas *canvas)
{
	(void)canvas;
	curses()->flushinp();
}

void
canvas_wait(struct canvas *canvas, struct canvas_key *key)
{
	struct pollfd from[2] = {{canvas->in, POLLIN, 0},
				 {canvas->signals.from, POLLIN, 0}};

	memset(key, 0, sizeof *key);
	for (;;) {
		if (read_signal(canvas, key) || read_key(canvas, key))
			return;
		if ((from[0].revents & (POLLHUP | POLLERR | POLLNVAL)) != 0)
			break;
		if (poll(from, 2, -1) < 0 && errno != EINTR)
			break;
	}
	key->event = CANVAS_CLOSED;
}
