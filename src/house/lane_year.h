/* Sums of a year of LANES houses side by side. Included after lanes.h. Internal. */
#include <string.h>

/* Sums of a year over one window. */
typedef struct lane_window {
  vd solar_month[12], lost_month[12], heating_part, cooling_part, uncomfortable;
  vd t_min, t_max, radiant_min, incident, passed;
} lane_window;

typedef struct lane_year {
  vd heating_month[12], cooling_month[12];
  vd peak_heating, peak_heating_hour, peak_cooling, peak_cooling_hour;
  vd stored, opaque_loss, air_loss, gain, cold, overheated, hours_warm;
  vd hours_open, aired, open;
  vd t_min, t_max, t_sum;
  vd outer_in; /* J through the outer faces and with the air, for the closing of the balance */
  lane_window window[PW_WINDOWS_MAX];
} lane_year;

static inline void lane_open_year(lane_year *r, size_t n_window)
{
  memset(r, 0, sizeof *r);
  r->peak_heating_hour = r->peak_cooling_hour = v_all(-1.0);
  r->t_min = v_all(1e9);
  r->t_max = v_all(-1e9);
  for (size_t w = 0; w < n_window; w++) {
    r->window[w].t_min = r->window[w].radiant_min = v_all(1e9);
    r->window[w].t_max = v_all(-1e9);
  }
}
