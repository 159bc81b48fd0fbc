/* Are two gaps, units, build-ups the same, value by value? (Their bytes may differ behind the end of a name.) */
#ifndef GLASS_SAME_H
#define GLASS_SAME_H

#include "panewright/glazing.h"

int gap_same(const pw_gap *a, const pw_gap *b);
int unit_same(const pw_unit *a, const pw_unit *b);
int buildup_same(const pw_buildup *a, const pw_buildup *b);

#endif
