/* slipreasons.h: the clinic's part of a slip: why, and with what care. */
#ifndef SHOAL_PAPER_SLIPREASONS_H
#define SHOAL_PAPER_SLIPREASONS_H

#include "paper/telling.h"

/* Each tells one part of the slip; see enum slip_part. */
void tell_deciding(const struct telling *to);
void tell_others(const struct telling *to);
void tell_advice(const struct telling *to);
void tell_not_done(const struct telling *to);
void tell_cautions(const struct telling *to);
void tell_policy(const struct telling *to);
void tell_consent(const struct telling *to);
void tell_reply_consent(const struct telling *to);

#endif
