/* What the bills after the work say, in words that neither boast nor hide; the firm's record. */
#include <math.h>
#include <stdio.h>

#include "out/after_out.h"
#include "out/bills_out.h"
#include "panewright/rates.h"

void pw_after_promise(const pw_after_house *h, pw_fuel f, double unit[3])
{
  const pw_promise_row *p = &h->promise[f];
  unit[0] = p->p10 / h->unit_kwh[f];
  unit[1] = p->p50 / h->unit_kwh[f];
  unit[2] = p->p90 / h->unit_kwh[f];
}

pw_after_verdict pw_after_verdict_of(const pw_after_house *h, pw_fuel f)
{
  const pw_after_net *net = &h->net[f];
  double promised[3];
  pw_after_promise(h, f, promised);
  return pw_after_beside(net->saving, net->low, net->high, promised[0], promised[2]);
}

const char *pw_after_verdict_word(pw_after_verdict verdict)
{
  static const char *const word[] = {"inside", "below_unsure", "below", "above_unsure",
                                     "above"};
  return word[verdict];
}

/* What a regression that refused its bills says of them. */
static void say_use(const pw_after_house *h, const pw_meter_use *u, pw_fuel f,
                    const char *which, char text[PW_AFTER_TEXT])
{
  pw_bills_report r = {.has_weather = h->has_weather};
  char why[PW_BILL_TEXT];
  r.use[f] = *u;
  pw_bill_refusal_say(&r, f, why);
  snprintf(text, PW_AFTER_TEXT, "the bills %s the work: %s", which, why);
}

void pw_after_refusal_say(const pw_after_house *h, pw_fuel f, char text[PW_AFTER_TEXT])
{
  const pw_after *a = &h->after[f];
  text[0] = '\0';
  switch (a->refused) {
  case PW_AFTER_ACCEPTED:
    return;
  case PW_AFTER_BEFORE:
    say_use(h, &a->before, f, "before", text);
    return;
  case PW_AFTER_LATER:
    say_use(h, &a->after, f, "after", text);
    return;
  case PW_AFTER_NONE:
    snprintf(text, PW_AFTER_TEXT, "no bill after the work");
    return;
  case PW_AFTER_CHANGE:
    snprintf(text, PW_AFTER_TEXT,
             "the house became another one since the work (occupancy, equipment, habits): what "
             "the windows saved cannot be told from what that changed");
    return;
  case PW_AFTER_NORMAL:
    snprintf(text, PW_AFTER_TEXT, "no normal year to tell both for");
    return;
  case PW_AFTER_REFUSAL_COUNT:
    return;
  }
}

void pw_after_record_of(const pw_after_house house[], size_t n, pw_after_record *record)
{
  pw_after_record r = {.n_house = n};
  double square = 0.0, count = 0.0; /* of those that are a part of a promise */
  for (size_t i = 0; i < n; i++)
    for (int f = 0; f < PW_FUEL_COUNT; f++) {
      const pw_after_house *h = &house[i];
      if (!h->n_bill[f]) continue;
      r.n_meter++;
      if (h->after[f].refused != PW_AFTER_ACCEPTED) {
        r.n_refused++;
        continue;
      }
      if (!h->promised[f]) {
        r.n_unpromised++;
        continue;
      }
      double measured = h->net[f].saving * h->unit_kwh[f], said = h->promise[f].p50;
      r.n++;
      r.n_inside += pw_after_verdict_of(h, (pw_fuel)f) == PW_AFTER_INSIDE;
      r.promised_kwh += said;
      r.measured_kwh += measured;
      if (said == 0.0) continue;
      double off = (measured - said) / fabs(said);
      count += 1.0;
      r.bias += off;
      square += off * off;
    }
  r.bias = count > 0.0 ? r.bias / count : (double)NAN;
  r.bias_se = count > 1.0
                  ? sqrt(fmax(0.0, square - count * r.bias * r.bias) / (count - 1.0) / count)
                  : (double)NAN;
  r.ratio = r.promised_kwh != 0.0 ? r.measured_kwh / r.promised_kwh : (double)NAN;
  *record = r;
}
