/* Words that several files of a job share. */
#ifndef JOB_WORDS_H
#define JOB_WORDS_H

#include "job/field.h"

/* Operators by short code or word: hs, slider, "single-hung" ... The bare words of "any" (no
 * operator of its own) are only taken where any is 1. */
extern const job_word job_operator_word[];
extern const size_t job_operator_words, job_operator_words_any;

extern const job_word job_shape_word[];
extern const size_t job_shape_words;

extern const job_word job_frame_word[];
extern const size_t job_frame_words;

extern const job_word job_spacer_word[];
extern const size_t job_spacer_words;

extern const job_word job_use_word[];
extern const size_t job_use_words;

/* Ways a solar share or an area may be written. */
extern const pw_unit_word job_share[2];   /* 0.3 or 30 % */
extern const pw_unit_word job_u_value[4]; /* W/m2K from Btu/hft2F and W/m2K */

#endif
