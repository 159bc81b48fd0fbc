/* The year's kernel for eight houses side by side; see year_lanes.h. */
#if defined __x86_64__ && defined __clang__
#pragma clang attribute push(__attribute__((target("avx512f,avx512dq,avx512vl"))),             \
                             apply_to = function)
#elif defined __x86_64__
#pragma GCC target("avx512f,avx512dq,avx512vl")
#endif
#define LANES 8
#define YEAR_LANES year_lanes_8
#include "house/year_lanes.h"
#if defined __x86_64__ && defined __clang__
#pragma clang attribute pop
#endif
