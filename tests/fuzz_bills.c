/* Any bytes as bills: bills.csv or a usage feed, read or refused, without a stray access. The first byte picks
 * what goes before, so that rows and readings are reached. */
#include "fuzz_text.h"

#include <math.h>

#include "job/usage_feed.h"
#include "meter/meter_use.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  static const char *const head[] = {"", "fuel,from,to,amount,unit,cost,read\n",
                                     "<feed><entry><content><ReadingType><commodity>1"
                                     "</commodity><uom>72</uom></ReadingType></content></"
                                     "entry><entry><content><IntervalBlock>"};
  static const pw_feed_options options = {NAN, NULL, 0};
  size_t whole = 0;
  char *text = fuzz_text(head, sizeof head / sizeof head[0], data, size, &whole);
  if (!text) return 0;
  pw_bills bills;
  pw_notes notes = {0};
  pw_status status =
      pw_feed_fits(text, whole)
          ? pw_feed_parse("fuzz.xml", text, whole, &options, &bills, &notes, NULL)
          : pw_bills_parse("fuzz.csv", text, whole, &bills, &notes, NULL);
  for (int f = 0; status == PW_OK && f < PW_FUEL_COUNT; f++) {
    pw_meter_use use;
    if (bills.fuel[f].n && pw_meter_use_of((pw_fuel)f, bills.fuel[f].row, bills.fuel[f].n, NULL,
                                           NULL, PW_BILL_NO_DAY, &use, NULL) == PW_OK)
      pw_meter_use_free(&use);
  }
  pw_bills_free(&bills);
  pw_notes_free(&notes);
  free(text);
  return 0;
}
