/* The year's kernel for four houses side by side; see year_lanes.h. */
#if defined __x86_64__ && defined __clang__
#pragma clang attribute push(__attribute__((target("avx2"))), apply_to = function)
#elif defined __x86_64__
#pragma GCC target("avx2")
#endif
#define LANES 4
#define YEAR_LANES year_lanes_4
#include "house/year_lanes.h"
#if defined __x86_64__ && defined __clang__
#pragma clang attribute pop
#endif
