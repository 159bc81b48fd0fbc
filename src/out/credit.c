#include "out/credit.h"

#include "base/date.h"

static const pw_date last_day = 20251231;

pw_credit pw_credit_of(const pw_house_facts *house)
{
  pw_date placed = 0;
  if (pw_date_read(house->install_date, &placed, NULL) != PW_OK || !placed)
    return PW_CREDIT_NO_DATE;
  return placed <= last_day ? PW_CREDIT_BEFORE_END : PW_CREDIT_ENDED;
}
