/* A gas as ISO 15099:2003 Annex B fits it, linear in the temperature (K); air, for gaps of glass and hollows of frames. */
#ifndef BASE_AIR_H
#define BASE_AIR_H

#define PW_GAS_CONSTANT 8314.5 /* J/(kmol K), as ISO 15099 Annex B rounds it */

typedef struct pw_gas_fit {
  double k_a, k_b;   /* W/(m K), W/(m K2) */
  double mu_a, mu_b; /* kg/(m s), kg/(m s K) */
  double cp_a, cp_b; /* J/(kg K), J/(kg K2) */
  double molar;      /* g/mol */
} pw_gas_fit;

#define PW_AIR_FIT                                                                             \
  {                                                                                            \
    2.873e-3, 7.760e-5, 3.723e-6, 4.940e-8, 1002.737, 1.2324e-2, 28.97                         \
  }

#endif
