/* slipclinic.h: the clinic's part of a slip: who, where, what was seen. */
#ifndef SHOAL_PAPER_SLIPCLINIC_H
#define SHOAL_PAPER_SLIPCLINIC_H

#include "paper/telling.h"

/* Each tells one part of the slip; see enum slip_part. Depth, pressure and
 * findings are those of one eye. */
void tell_urgency(const struct telling *to);
void tell_person(const struct telling *to);
void tell_camp(const struct telling *to);
void tell_depth(const struct telling *to);
void tell_pressure(const struct telling *to);
void tell_eye_findings(const struct telling *to);
void tell_reports(const struct telling *to);

/* Of the reply: where it goes back to. */
void tell_sender(const struct telling *to);

#endif
