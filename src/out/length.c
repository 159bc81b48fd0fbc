#include "out/length.h"

#include <stdio.h>

#include "base/tape.h"
#include "panewright/units.h"

pw_amount_said pw_length_of(pw_reading as, double length, int denominator)
{
  pw_amount_said said = {0};
  char tape[24];
  if (as.si) {
    snprintf(said.text, sizeof said.text, length < 0.02 ? "%.1f mm" : "%.0f mm", length * 1e3);
  } else {
    pw_tape_text(length, denominator, tape, sizeof tape);
    pw_tongue_put(as.tongue, said.text, sizeof said.text, "%s in", tape);
  }
  return said;
}

pw_amount_said pw_stock_of(pw_reading as, double length)
{
  pw_amount_said said = {0};
  if (as.si)
    snprintf(said.text, sizeof said.text, "%.2f m", length);
  else
    pw_tongue_put(as.tongue, said.text, sizeof said.text, "%.0f ft", length / PW_FOOT);
  return said;
}

pw_amount_said pw_volume_of(pw_reading as, double volume)
{
  pw_amount_said said = {0};
  if (as.si)
    snprintf(said.text, sizeof said.text, "%.0f mL", volume * 1e6);
  else
    pw_tongue_put(as.tongue, said.text, sizeof said.text, "%.1f fl oz",
                  volume / PW_FLUID_OUNCE);
  return said;
}

pw_amount_said pw_foam_of(pw_reading as, double volume)
{
  pw_amount_said said = {0};
  if (as.si)
    snprintf(said.text, sizeof said.text, "%.2f L", volume * 1e3);
  else
    pw_tongue_put(as.tongue, said.text, sizeof said.text, "%.0f in3",
                  volume / (PW_INCH * PW_INCH * PW_INCH));
  return said;
}

pw_amount_said pw_weight_of(pw_reading as, double mass)
{
  pw_amount_said said = {0};
  if (as.si)
    snprintf(said.text, sizeof said.text, "%.0f kg", mass);
  else
    pw_tongue_put(as.tongue, said.text, sizeof said.text, "%.0f lb", mass / PW_POUND);
  return said;
}
