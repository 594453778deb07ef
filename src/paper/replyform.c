/* replyform.c: what the clinic is asked on the reply, question by question. */
#include "paper/replyform.h"

/* clang-format off */
const struct reply_question reply_questions[] = {
{"reply.seen_on", REPLY_VISIT, true, {NULL}},
{"reply.examiner", REPLY_VISIT, true, {NULL}},
{"reply.seen_elsewhere", REPLY_VISIT, true, {NULL}},
{"reply.not_attended", REPLY_VISIT, false, {
	"reply.not_attended_cost", "reply.not_attended_sees_well",
	"reply.not_attended_too_far", "reply.not_attended_nobody",
	"reply.not_attended_other", "reply.not_attended_unknown"}},
{"reply.deepest", REPLY_QUADRANT, false, {
	"reply.structure_none", "reply.structure_schwalbe",
	"reply.structure_anterior_meshwork",
	"reply.structure_posterior_meshwork",
	"reply.structure_scleral_spur", "reply.structure_ciliary_band",
	"reply.could_not_see", "reply.not_examined"}},
{"reply.contour", REPLY_EYE, false, {
	"reply.contour_flat", "reply.contour_bowed_forward",
	"reply.contour_bowed_backward", "reply.contour_plateau",
	"reply.could_not_see", "reply.not_examined"}},
{"reply.inserts", REPLY_EYE, false, {
	"reply.inserts_before_schwalbe", "reply.inserts_meshwork",
	"reply.inserts_spur", "reply.inserts_ciliary_band",
	"reply.inserts_far_back", "reply.not_examined"}},
{"reply.indentation", REPLY_EYE, false, {
	"reply.indentation_opens", "reply.indentation_partly",
	"reply.indentation_stays_shut", "reply.could_not_see",
	"reply.indentation_not_done"}},
{"reply.synechiae", REPLY_EYE, false, {
	"reply.yes", "reply.no", "reply.could_not_see",
	"reply.not_examined"}},
{"reply.pressure", REPLY_EYE, true, {NULL}},
{"reply.disc", REPLY_EYE, false, {
	"reply.normal", "reply.glaucoma", "reply.could_not_see",
	"reply.not_examined"}},
{"reply.field", REPLY_EYE, false, {
	"reply.normal", "reply.glaucoma", "reply.not_examined"}},
{"reply.done", REPLY_END, false, {
	"reply.done_nothing", "reply.done_iridotomy", "reply.done_lens",
	"reply.done_medicine", "reply.done_sent_on", "reply.done_other"}},
{"reply.next_visit", REPLY_END, true, {NULL}},
{"reply.useful", REPLY_END, false, {"reply.yes", "reply.no"}},
{"reply.to_learn", REPLY_END, true, {NULL}},
};
/* clang-format on */

const size_t reply_question_count =
	sizeof reply_questions / sizeof reply_questions[0];

const char *const reply_quadrants[REPLY_QUADRANTS] = {
	"reply.superior", "reply.inferior", "reply.nasal", "reply.temporal"};
