#include "base/select.h"

double pw_select(double v[], size_t n, size_t k)
{
  size_t low = 0, high = n - 1;
  while (low < high) {
    double pivot = v[low + (high - low) / 2];
    size_t i = low, j = high;
    for (;;) {
      while (v[i] < pivot)
        i++;
      while (v[j] > pivot)
        j--;
      if (i >= j) break;
      double t = v[i];
      v[i++] = v[j];
      v[j--] = t;
    }
    if (k <= j)
      high = j;
    else
      low = j + 1;
  }
  return v[k];
}
