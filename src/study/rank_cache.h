/* What the search works out once: light through each coated pane at every angle, the heat of each
 * structure, the program's word on each label. Internal. */
#ifndef STUDY_RANK_CACHE_H
#define STUDY_RANK_CACHE_H

#include "study/rank_impl.h"

/* Every pane with every pair of coatings, at every angle; read only, shared by the threads. */
typedef struct rank_panes rank_panes;
pw_status rank_panes_new(const pw_rank_catalogue *catalogue, rank_panes **panes, pw_err *err);
void rank_panes_free(rank_panes *panes);
const pw_spectrum *rank_panes_spectrum(const rank_panes *panes);

/* The fans of a stack; 0 when one of its panes cannot carry its coatings. */
int rank_panes_of(const rank_panes *panes, const rank_stack *stack,
                  const pw_fan *fan[PW_PANES_MAX]);
/* Visible transmittance of pane i of a stack alone, at normal incidence. */
double rank_panes_visible(const rank_panes *panes, const rank_stack *stack, size_t i);

/* One thread's memory. */
typedef struct rank_heat_slot {
  unsigned char used, key[4 * PW_PANES_MAX];
  double u, u_year, t_inner;
} rank_heat_slot;

typedef struct rank_memory {
  rank_heat_slot *heat;   /* owned; a hash table */
  size_t n_heat, room;    /* room a power of two */
  unsigned char *verdict; /* owned; by U, SHGC and VT as a label prints them: 0 not known yet */
} rank_memory;

pw_status rank_memory_init(rank_memory *memory, pw_err *err);
void rank_memory_free(rank_memory *memory);

/* Heat of a stack with these gaps, whose light is in *glazing already: unit, U, SHGC there, and all of
 * it as *glass, which points into *glazing. */
pw_status rank_heat_of(rank_memory *memory, const rank_house *house, const rank_panes *panes,
                       const rank_space *space, const rank_stack *stack, const size_t gap[],
                       pw_glazing *glazing, rank_glass *glass, pw_rank_counts *counts,
                       pw_err *err);

int rank_program_holds(rank_memory *memory, const pw_rank_limits *limits, double u, double shgc,
                       double vt);

#endif
