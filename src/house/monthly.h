/* The monthly method with utilisation factors. */
#ifndef HOUSE_MONTHLY_H
#define HOUSE_MONTHLY_H

#include "panewright/status.h"

/* One month. Energies in kWh, temperatures in C. */
typedef struct pw_month_balance {
  double hours;
  double t_out, heat_set, cool_set;
  double h_transmission, h_air; /* W/K */
  double gain_kwh;              /* internal and solar */
  double extra_loss_kwh;        /* sky, ground; counted as loss */
  double time_constant_h;
} pw_month_balance;

/* Share of the gains that help heating, and of the losses that help cooling.
 * Given  gamma = gain / loss; a = 1 + time constant / 15 h. Source: ISO 13790:2008 12.2.1. */
double pw_month_gain_use(double gamma, double a);
double pw_month_loss_use(double gamma, double a);

/* Heating and cooling need of the month, kWh: by the factors, and 0 where gains (for cooling: losses) are
 * over twice the other side. Source: ISO 52016-1:2017 6.6, rule from memory.
 * Status  PW_E_DOMAIN: hours, conductances or time constant not above 0 or not finite */
pw_status pw_month_need(const pw_month_balance *month, double *heating_kwh, double *cooling_kwh,
                        pw_err *err);

#endif
