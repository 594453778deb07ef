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

/* config/wording-LL.ini: the same words in French, Spanish, Swahili, Arabic. */
extern const unsigned char embedded_wording_fr[];
extern const size_t embedded_wording_fr_size;
extern const unsigned char embedded_wording_es[];
extern const size_t embedded_wording_es_size;
extern const unsigned char embedded_wording_sw[];
extern const size_t embedded_wording_sw_size;
extern const unsigned char embedded_wording_ar[];
extern const size_t embedded_wording_ar_size;

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

/* fieldforms/reply.css: the style of the reply part. */
extern const unsigned char embedded_reply_css[];
extern const size_t embedded_reply_css_size;

/* fieldforms/forms.css: the style that all forms share. */
extern const unsigned char embedded_forms_css[];
extern const size_t embedded_forms_css_size;

/* fieldforms/register.html: the paper register. */
extern const unsigned char embedded_register_html[];
extern const size_t embedded_register_html_size;

/* fieldforms/handslip.html: the slip filled in by hand. */
extern const unsigned char embedded_handslip_html[];
extern const size_t embedded_handslip_html_size;

/* fieldforms/tallysheet.html: the day, counted by hand. */
extern const unsigned char embedded_tallysheet_html[];
extern const size_t embedded_tallysheet_html_size;

/* fieldforms/replysheet.html: the reply with its drawing. */
extern const unsigned char embedded_replysheet_html[];
extern const size_t embedded_replysheet_html_size;

/* fieldforms/gradingcard.html: the grades, for the slit lamp. */
extern const unsigned char embedded_gradingcard_html[];
extern const size_t embedded_gradingcard_html_size;

#endif
