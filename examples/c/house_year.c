/* A house for a year: heat and cold in kWh and the bill in $, with its windows and with an insert in each. */
#include <panewright.h>
#include <stdio.h>
#include <string.h>

int main(void)
{
  static pw_weather weather;
  pw_opening o[4];
  pw_package p;
  static pw_job job;
  pw_comparison *year = NULL;
  pw_err err;
  size_t place;
  for (int i = 0; i < 4; i++) { /* two sliders to each point of the compass */
    pw_opening_init(&o[i]);
    snprintf(o[i].tag, sizeof o[i].tag, "%c", "NESW"[i]);
    o[i].facing_deg = 90.0 * i, o[i].quantity = 2;
    o[i].operator_existing = o[i].operator_insert = PW_SLIDER;
    o[i].width[1] = 60 * PW_INCH, o[i].height[1] = 48 * PW_INCH;
  }
  job.n_opening = 4, job.opening = o, job.n_package = 1, job.package = &p;
  pw_package_init(&p);
  strcpy(p.name, "low-e");
  pw_house_init(&job.house);
  strcpy(job.house.state, "NM");
  job.house.year_built = 1972;
  job.house.floor_area.value = 150, job.house.ceiling_height.value = 2.44; /* m2, m */
  job.house.heat_set_c.value = 20, job.house.cool_set_c.value = 25;
  job.house.heating_efficiency.value = 0.8, job.house.cooling_cop.value = 3.5;
  job.house.heating_fuel = PW_FUEL_GAS, job.house.duct_efficiency.value = 1;
  if (pw_buildup_parse("3mm clear coat ag2@2 / 1/2in argon 90% / 3mm clear", &p.glass, &err) ||
      pw_place_find("Albuquerque", &place, NULL, &err) ||
      pw_place_year(place, &weather, &err) || pw_comparison_new(&job, &weather, &year, &err))
    return fprintf(stderr, "%s\n", err.text), 1;
  pw_compared c;
  for (size_t set = 0; set < 3 && pw_comparison_get(year, set, &c, &err) == PW_OK; set++)
    printf("%s %.6g %.6g %.6g\n", c.name, c.heating_kwh, c.cooling_kwh, c.bill);
  pw_comparison_free(year);
}
