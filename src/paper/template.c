/* template.c: a page with {{names}} to be filled in. */
#include "paper/template.h"

#include <string.h>

/* Copies the name after "{{" at `open`; returns what follows its "}}", or NULL
 * when there is no sound name. */
static const char *
read_name(const char *open, char *name)
{
	const char *start = open + 2;
	const char *end = strstr(start, "}}");
	size_t length;

	if (end == NULL)
		return NULL;
	length = (size_t)(end - start);
	if (length == 0 || length > TEMPLATE_NAME_MOST)
		return NULL;
	memcpy(name, start, length);
	name[length] = '\0';
	return end + 2;
}

static bool
check_names(const char *text, template_fill *fill, const void *context,
	    struct fault *why)
{
	char name[TEMPLATE_NAME_MOST + 1];
	const char *open, *after;

	for (; (open = strstr(text, "{{")) != NULL; text = after) {
		after = read_name(open, name);
		if (after == NULL)
			return fault_set(why, FAULT_INTERNAL,
					 "the template has a '{{' without a "
					 "name of 1 to %d bytes and '}}'",
					 TEMPLATE_NAME_MOST);
		if (!fill(context, name, NULL))
			return fault_set(why, FAULT_INTERNAL,
					 "the template asks for '%s', which "
					 "nothing fills in",
					 name);
	}
	return true;
}

bool
template_write(const char *text, template_fill *fill, const void *context,
	       FILE *out, struct fault *why)
{
	char name[TEMPLATE_NAME_MOST + 1];
	const char *open;

	if (!check_names(text, fill, context, why))
		return false;
	while ((open = strstr(text, "{{")) != NULL) {
		fwrite(text, 1, (size_t)(open - text), out);
		text = read_name(open, name);
		fill(context, name, out);
	}
	fputs(text, out);
	return true;
}
