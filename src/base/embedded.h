/* The texts compiled into the program, so that one file is enough. */
#ifndef SHOAL_BASE_EMBEDDED_H
#define SHOAL_BASE_EMBEDDED_H

#include <stddef.h>

/*
 * Each array holds one file of the source tree, byte for byte; the build makes
 * its definition. The size is the number of bytes of the file. One NUL follows
 * that is not counted in the size, so an array is also a string as long as the
 * file itself holds no NUL. The arrays last as long as the program, and nobody
 * may write to them.
 */

/* config/policy.ini: the policy used where a camp has none of its own. */
extern const unsigned char embedded_policy[];
extern const size_t embedded_policy_size;

/* config/station.ini: the settings of a station, as first written out. */
extern const unsigned char embedded_station[];
extern const size_t embedded_station_size;

/* config/wording-en.ini: the English words of the forms and slips. */
extern const unsigned char embedded_wording_en[];
extern const size_t embedded_wording_en_size;

/* fieldforms/slip.html: the template of the printed slip. */
extern const unsigned char embedded_slip_html[];
extern const size_t embedded_slip_html_size;

/* fieldforms/training.html: a sheet for a training in grading. */
extern const unsigned char embedded_training_html[];
extern const size_t embedded_training_html_size;

/* config/plan.ini: published accuracy of the test, for planning. */
extern const unsigned char embedded_plan[];
extern const size_t embedded_plan_size;

/* fieldforms/report.html: the page about a collation. */
extern const unsigned char embedded_report_html[];
extern const size_t embedded_report_html_size;

#endif
