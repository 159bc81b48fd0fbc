/* The phases of a job: a table of what each costs and saves, and the same as JSON. */
#ifndef OUT_PHASES_OUT_H
#define OUT_PHASES_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "study/compare_phases.h"

/* Nothing for a job of one phase. PW_E_IO when writing fails. */
pw_status pw_phases_text(const pw_compare *compare, const pw_compare_phases *phases, FILE *f,
                         pw_err *err);

/* Price (0) and saving (1) of phase k, index from 0, under a package in whole dollars that add up to those of all: what a
 * rounded sum grows by. Text, sheet and JSON (price_told, saving_told) tell these. */
double pw_phase_told(const pw_compare_phases *phases, size_t k, size_t package, int saving);

/* An array, an object a phase: phase, windows, opening_area_m2, packages: what each costs and saves. */
json_t *pw_phases_json(const pw_compare *compare, const pw_compare_phases *phases);

#endif
