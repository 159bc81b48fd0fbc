#include "window/order_check.h"

#include <string.h>

static void add(pw_order_check *check, const pw_message *why)
{
  check->may_order = 0;
  if (check->n < PW_ORDER_REASONS_MAX) check->why[check->n++] = why;
}

/* Escape and safety glass change what is ordered; the other questions do not. */
static int of_the_order(const pw_caution *c)
{
  return strncmp(c->id, "EG", 2) == 0 || strncmp(c->id, "SG", 2) == 0;
}

void pw_order_check_of(int opening, const pw_fit *fit, const pw_cautions *cautions,
                       pw_order_check *check)
{
  *check = (pw_order_check){.may_order = 1};
  for (size_t k = 0; k < fit->n_finding; k++)
    if (pw_finding_blocks(fit->finding[k].kind)) add(check, &fit->finding[k].says);
  for (size_t k = 0; k < cautions->n; k++) {
    const pw_caution *c = &cautions->caution[k];
    if (c->opening != opening) continue;
    if ((c->state == PW_CAUTION_FAIL && !c->agreed) ||
        (c->state == PW_CAUTION_ASK && of_the_order(c)))
      add(check, &c->finding);
  }
}
