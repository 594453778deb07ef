/* slippatient.h: the patient's part of a slip. */
#ifndef SHOAL_PAPER_SLIPPATIENT_H
#define SHOAL_PAPER_SLIPPATIENT_H

#include "paper/telling.h"

/* Each tells one part of the slip; see enum slip_part. */
void tell_state(const struct telling *to);
void tell_headline(const struct telling *to);
void tell_patient_when(const struct telling *to);
void tell_name(const struct telling *to);
void tell_message(const struct telling *to);
void tell_where(const struct telling *to);
void tell_at_once(const struct telling *to);
void tell_ending(const struct telling *to);

#endif
