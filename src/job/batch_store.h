/* What a batch has worked out already: glass by its text, places by their name. Internal. */
#ifndef JOB_BATCH_STORE_H
#define JOB_BATCH_STORE_H

#include "panewright/glazing.h"
#include "study/alone.h"

/* Glass and place names of one thread. Beyond 1024 of either it begins anew, so that its
 * memory does not grow with the input. */
typedef struct batch_glasses batch_glasses;
batch_glasses *batch_glasses_new(void);
void batch_glasses_free(batch_glasses *glasses);

/* Forgets when there is too much: to be called between rows. */
void batch_glasses_tidy(batch_glasses *glasses);

/* The glazing of a text; it stays until the store is tidied.
 * Status  PW_OK; PW_E_DATA; PW_E_NOMEM (a text that failed fails again from the store) */
pw_status batch_glass_of(batch_glasses *glasses, const char *text, const pw_glazing **glazing,
                         pw_err *err);

/* Built-in places, shared by all threads: each is made ready by the first that asks. */
typedef struct batch_places batch_places;
batch_places *batch_places_new(pw_alone_method method);
void batch_places_free(batch_places *places);

/* The place of a name; names met are kept in the thread's own store. */
pw_status batch_place_of(batch_places *places, batch_glasses *glasses, const char *text,
                         const pw_alone_place **place, double *away_km, pw_err *err);

#endif
