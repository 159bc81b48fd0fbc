/* The sound of a comparison, on a terminal and as JSON. */
#ifndef OUT_COMPARE_SOUND_OUT_H
#define OUT_COMPARE_SOUND_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "study/compare_sound.h"

/* Tables of openings and rooms and what to know beside them. PW_E_IO when writing fails. */
pw_status pw_compare_sound_text(const pw_compare *compare, const pw_compare_sound *sound,
                                FILE *f, pw_err *err);

/* The chain of the figure: formula, numbers, inputs with their ranges and sources. */
pw_status pw_compare_sound_explain(const pw_compare *compare, const pw_compare_sound *sound,
                                   FILE *f, pw_err *err);

/* dir/sound.svg and .png: the change by opening and package. Status as pw_plot_write. */
pw_status pw_compare_sound_picture(const pw_compare *compare, const pw_compare_sound *sound,
                                   const char *dir, pw_err *err);

/* What is said of a package's noise, from reference/sound/noise.csv: "road traffic in a town". */
const char *pw_sound_noise_text(const pw_compare_sound *sound);

/* Keys of one window (rw_db, ... change_rw_ctr_db) into its object; package below 0: existing. */
void pw_compare_sound_window_json(const pw_compare_sound *sound, int package, size_t opening,
                                  json_t *object);

/* The object "sound" of a comparison (new reference). */
json_t *pw_compare_sound_json(const pw_compare *compare, const pw_compare_sound *sound);

#endif
