/* A gas mixture made ready for many temperatures: what the unit solver calls in its inner loop. */
#ifndef GLASS_GAS_LAW_H
#define GLASS_GAS_LAW_H

#include <stddef.h>

#include "panewright/gas.h"

enum { GAS_LAW_MAX = 4 }; /* gases that ISO 15099 gives coefficients for */

typedef struct gas_law {
  size_t n;
  double x[GAS_LAW_MAX];                       /* volume shares, none 0 */
  double k_a[GAS_LAW_MAX], k_b[GAS_LAW_MAX];   /* conductivity a + b T */
  double mu_a[GAS_LAW_MAX], mu_b[GAS_LAW_MAX]; /* viscosity a + b T */
  double k_mono[GAS_LAW_MAX]; /* 15/4 R/M: conductivity of a monatomic gas over mu */
  double phi_root[GAS_LAW_MAX][GAS_LAW_MAX], phi_scale[GAS_LAW_MAX][GAS_LAW_MAX];
  double psi_scale[GAS_LAW_MAX][GAS_LAW_MAX];
  double cp_a, cp_b; /* of the mixture, J/(kg K) */
  double molar;      /* of the mixture, g/mol */
} gas_law;

typedef struct gas_point {
  double k, mu, cp; /* W/(m K), kg/(m s), J/(kg K) */
  double k_slope,
      mu_slope; /* relative change with temperature, 1/K (share-weighted: near enough
                               for a Newton step, not a property) */
} gas_point;

/* Status as pw_gas_iso15099; field names the offending parameter. */
pw_status gas_law_set(const pw_mix *mix, gas_law *law, pw_err *err);

/* No range check: the solver may pass through temperatures that it does not end at. */
void gas_law_at(const gas_law *law, double t, gas_point *point);

#endif
