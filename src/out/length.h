/* A length, a volume, a weight as the reader's tape has it, with its unit in his tongue (NULL: English). */
#ifndef OUT_LENGTH_H
#define OUT_LENGTH_H

#include "out/tongue.h"

/* How a reader takes amounts: pw_length_of(as, x, 16).text */
typedef struct pw_reading {
  int si;
  const pw_tongue *tongue;
} pw_reading;

typedef struct pw_amount_said {
  char text[40];
} pw_amount_said;

/* "35 1/2 in" to the nearest 1/denominator, or "902 mm" (below 20 mm to a tenth). */
pw_amount_said pw_length_of(pw_reading as, double length, int denominator);

/* Stock: "16 ft" or "4.88 m". */
pw_amount_said pw_stock_of(pw_reading as, double length);

/* Of sealant: "1.3 fl oz" or "38 mL"; of foam: "62 in3" or "1.02 L". */
pw_amount_said pw_volume_of(pw_reading as, double volume);
pw_amount_said pw_foam_of(pw_reading as, double volume);

/* A weight: "62 lb" or "28 kg". */
pw_amount_said pw_weight_of(pw_reading as, double mass);

#endif
