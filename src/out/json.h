/* Small words on top of jansson, so that every command writes JSON alike. */
#ifndef OUT_JSON_H
#define OUT_JSON_H

#include <jansson.h>
#include <stdio.h>

#include "panewright/status.h"

/* Called once, before any JSON is built: memory that cannot be had is noticed then, and the text is refused
 * by pw_json_print instead of lacking a key. */
void pw_json_watch(void);

/* For memory taken elsewhere: the same holds of it. */
void pw_json_lose(void);

/* 1: a part of some text in JSON could not be had. */
int pw_json_lost(void);

/* A number, or null when it is not finite. */
json_t *pw_json_real(double v);
void pw_json_set(json_t *object, const char *key, double v);
void pw_json_set_text(json_t *object, const char *key,
                      const char *text); /* cleaned as base/text.h says */

/* An array of n numbers. */
json_t *pw_json_array(const double v[], size_t n);

/* Prints with two-space indent, 12 digits and a newline, and releases root. PW_E_IO on failure. */
pw_status pw_json_print(json_t *root, FILE *f, pw_err *err);

#endif
